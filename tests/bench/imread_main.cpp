// Reads one picture in the way that most programs would; what the whole of huewright is timed against.
#include <opencv2/imgcodecs.hpp>

int main(int argc, char** argv) { return argc == 2 && !cv::imread(argv[1]).empty() ? 0 : 1; }
