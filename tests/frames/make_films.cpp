// Writes films of the moving picture into a folder: film.avi (Motion JPEG) and film.mkv (FFV1). Arguments: the folder, the number of pictures.
// A program of its own, so that no test but this room's links the video library. Prints which of them could be written.
#include <cstdlib>
#include <iostream>
#include <opencv2/core.hpp>
#include <opencv2/core/utils/logger.hpp>
#include <opencv2/imgproc.hpp>
#include <opencv2/videoio.hpp>
#include <string>
#include <vector>

#include "support/moving_picture.hpp"

namespace {

bool written(const std::string& path, int api, int code, int pictures) {
  const cv::Size size(huewright::fixtures::kMovingSize.width, huewright::fixtures::kMovingSize.height);
  cv::VideoWriter writer;
  if (!writer.open(path, api, code, 25, size)) return false;
  writer.set(cv::VIDEOWRITER_PROP_QUALITY, 95);
  for (int i = 0; i < pictures; ++i) {
    std::vector<std::uint8_t> rgb = huewright::fixtures::movingPicture(i);
    cv::Mat bgr;
    cv::cvtColor(cv::Mat(size, CV_8UC3, rgb.data()), bgr, cv::COLOR_RGB2BGR);
    writer.write(bgr);
  }
  writer.release();
  return true;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  cv::utils::logging::setLogLevel(cv::utils::logging::LOG_LEVEL_SILENT);
  const std::string folder = argv[1];
  const int pictures = std::atoi(argv[2]);
  if (written(folder + "/film.avi", cv::CAP_OPENCV_MJPEG, cv::VideoWriter::fourcc('M', 'J', 'P', 'G'), pictures)) std::cout << "avi\n";
  if (written(folder + "/film.mkv", cv::CAP_FFMPEG, cv::VideoWriter::fourcc('F', 'F', 'V', '1'), pictures)) std::cout << "mkv\n";
  return 0;
}
