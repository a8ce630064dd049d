#include "frames/made_up_device.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdarg>
#include <cstddef>
#include <cstring>
#include <dlfcn.h>
#include <fcntl.h>
#include <linux/videodev2.h>
#include <mutex>
#include <string_view>
#include <sys/ioctl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/timerfd.h>
#include <unistd.h>

namespace huewright::frames {
namespace {

/// What lasts from opening to closing.
struct OpenedDevice {
  int file = -1;                                       // a clock that ticks thirty times a second: a tick is a picture that can be waited for
  std::uint32_t format = V4L2_PIX_FMT_YUYV;
  std::vector<std::vector<std::uint8_t>> buffers;
  std::vector<std::uint32_t> queued;
  bool streams = false;
  std::size_t next = 0;
};

OpenedDevice opened;
std::mutex device_lock;

bool isDevice(const char* path) { return path != nullptr && std::string_view(path) == kMadeUpDevice; }
bool isDevice(int file) { return file >= 0 && file == opened.file; }

int failed(int reason) {
  errno = reason;
  return -1;
}

std::uint32_t bufferBytes() { return static_cast<std::uint32_t>(2 * madeUpDevice().width * madeUpDevice().height); }

template <class Function>
Function systems(const char* name) {
  return reinterpret_cast<Function>(::dlsym(RTLD_NEXT, name));
}

void tick(bool on) {
  constexpr long kThirtieth = 1'000'000'000 / 30;
  const itimerspec time{{0, on ? kThirtieth : 0}, {0, on ? kThirtieth : 0}};
  ::timerfd_settime(opened.file, 0, &time, nullptr);
}

int tellFormat(v4l2_format& format, bool set) {
  MadeUpDevice& device = madeUpDevice();
  if (format.type != V4L2_BUF_TYPE_VIDEO_CAPTURE) return failed(EINVAL);
  if (set && !opened.buffers.empty()) return failed(EBUSY);
  v4l2_pix_format& pix = format.fmt.pix;
  std::uint32_t code = set ? pix.pixelformat : opened.format;
  if (set) {
    std::string name(sizeof code, ' ');
    std::memcpy(name.data(), &code, sizeof code);
    device.said.push_back("format " + name + " " + std::to_string(pix.width) + " x " + std::to_string(pix.height));
  }
  if (device.only_format != 0) code = device.only_format;
  else if (code != V4L2_PIX_FMT_MJPEG) code = V4L2_PIX_FMT_YUYV;
  pix = {};
  pix.width = static_cast<std::uint32_t>(device.width);
  pix.height = static_cast<std::uint32_t>(device.height);
  pix.pixelformat = code;
  pix.field = V4L2_FIELD_NONE;
  pix.bytesperline = code == V4L2_PIX_FMT_YUYV ? 2 * pix.width : 0;
  pix.sizeimage = bufferBytes();
  pix.colorspace = V4L2_COLORSPACE_SRGB;
  if (set) opened.format = code;
  return 0;
}

int tellControl(unsigned long request, void* told) {
  MadeUpDevice& device = madeUpDevice();
  if (request == VIDIOC_QUERYCTRL) {
    auto& query = *static_cast<v4l2_queryctrl*>(told);
    if (!device.controls.contains(query.id)) return failed(EINVAL);
    query.type = V4L2_CTRL_TYPE_INTEGER;
    query.minimum = 0, query.maximum = 10000, query.step = 1, query.flags = 0;
    return 0;
  }
  auto& control = *static_cast<v4l2_control*>(told);
  const auto at = device.controls.find(control.id);
  if (at == device.controls.end()) return failed(EINVAL);
  if (request == VIDIOC_G_CTRL) {
    control.value = at->second;
    return 0;
  }
  if (std::ranges::find(device.refused, control.id) != device.refused.end()) return failed(EIO);
  at->second = control.value;
  return 0;
}

int giveBuffer(v4l2_buffer& buffer) {
  const MadeUpDevice& device = madeUpDevice();
  std::uint64_t ticks = 0;
  if (!device.sends || opened.queued.empty() || device.pictures.empty() || ::read(opened.file, &ticks, sizeof ticks) != sizeof ticks) return failed(EAGAIN);
  const std::uint32_t index = opened.queued.front();
  opened.queued.erase(opened.queued.begin());
  const auto& picture = device.pictures[opened.next++ % device.pictures.size()];
  const std::size_t bytes = std::min(picture.size(), opened.buffers[index].size());
  std::copy_n(picture.begin(), bytes, opened.buffers[index].begin());
  buffer.index = index;
  buffer.bytesused = static_cast<std::uint32_t>(bytes);
  buffer.length = bufferBytes();
  buffer.flags = 0;
  return 0;
}

int answered(unsigned long request, void* told) {
  MadeUpDevice& device = madeUpDevice();
  if (!device.there) return failed(ENODEV);
  switch (request) {
    case VIDIOC_QUERYCAP: {
      auto& able = *static_cast<v4l2_capability*>(told);
      able = {};
      able.device_caps = V4L2_CAP_VIDEO_CAPTURE | V4L2_CAP_STREAMING;
      able.capabilities = able.device_caps | V4L2_CAP_DEVICE_CAPS;
      return 0;
    }
    case VIDIOC_G_INPUT: *static_cast<int*>(told) = 0; return 0;
    case VIDIOC_S_INPUT: return *static_cast<int*>(told) == 0 ? 0 : failed(EINVAL);
    case VIDIOC_ENUMINPUT: return static_cast<v4l2_input*>(told)->index == 0 ? 0 : failed(EINVAL);
    case VIDIOC_G_FMT: return tellFormat(*static_cast<v4l2_format*>(told), false);
    case VIDIOC_S_FMT: return tellFormat(*static_cast<v4l2_format*>(told), true);
    case VIDIOC_G_PARM:
    case VIDIOC_S_PARM: static_cast<v4l2_streamparm*>(told)->parm.capture.timeperframe = {1, 30}; return 0;
    case VIDIOC_REQBUFS:
      if (opened.streams) return failed(EBUSY);
      opened.buffers.assign(static_cast<v4l2_requestbuffers*>(told)->count, {});
      opened.queued.clear();
      return 0;
    case VIDIOC_QUERYBUF: {
      auto& buffer = *static_cast<v4l2_buffer*>(told);
      if (buffer.index >= opened.buffers.size()) return failed(EINVAL);
      buffer.length = bufferBytes();
      buffer.m.offset = buffer.index * buffer.length;
      return 0;
    }
    case VIDIOC_QBUF: opened.queued.push_back(static_cast<v4l2_buffer*>(told)->index); return 0;
    case VIDIOC_DQBUF: return giveBuffer(*static_cast<v4l2_buffer*>(told));
    case VIDIOC_STREAMON:
    case VIDIOC_STREAMOFF:
      opened.streams = request == VIDIOC_STREAMON;
      if (!opened.streams) opened.queued.clear();
      tick(opened.streams && device.sends);
      return 0;
    case VIDIOC_S_CTRL:
    case VIDIOC_G_CTRL:
    case VIDIOC_QUERYCTRL: return tellControl(request, told);
    default: return failed(ENOTTY);
  }
}

}  // namespace

MadeUpDevice& madeUpDevice() {
  static MadeUpDevice device;
  return device;
}

}  // namespace huewright::frames

// The program's own come before the C library's for all that it is linked with. All but the device's go on to that one.
extern "C" {

using namespace huewright::frames;

int open(const char* path, int flags, ...) {
  if (isDevice(path)) {
    const std::scoped_lock hold(device_lock);
    MadeUpDevice& device = madeUpDevice();
    if (!device.there) return failed(ENOENT);
    if (!device.permitted) return failed(EACCES);
    if (device.in_use || opened.file >= 0) return failed(EBUSY);
    opened = {};
    opened.file = ::timerfd_create(CLOCK_MONOTONIC, TFD_NONBLOCK | TFD_CLOEXEC);
    device.said.emplace_back("open");
    return opened.file;
  }
  std::va_list rest;
  va_start(rest, flags);
  const mode_t mode = (flags & (O_CREAT | O_TMPFILE)) != 0 ? va_arg(rest, mode_t) : 0;
  va_end(rest);
  return systems<int (*)(const char*, int, ...)>("open")(path, flags, mode);
}

int close(int file) {
  if (isDevice(file)) {
    const std::scoped_lock hold(device_lock);
    madeUpDevice().said.emplace_back("close");
    opened = {};
  }
  return systems<int (*)(int)>("close")(file);
}

int ioctl(int file, unsigned long request, ...) noexcept {
  std::va_list rest;
  va_start(rest, request);
  void* told = va_arg(rest, void*);
  va_end(rest);
  if (!isDevice(file)) return systems<int (*)(int, unsigned long, ...)>("ioctl")(file, request, told);
  const std::scoped_lock hold(device_lock);
  return answered(static_cast<std::uint32_t>(request), told);  // the library keeps requests in an int: those with the highest bit come with bits above it
}

void* mmap(void* at, std::size_t bytes, int protection, int flags, int file, off_t from) noexcept {
  if (!isDevice(file)) return systems<void* (*)(void*, std::size_t, int, int, int, off_t)>("mmap")(at, bytes, protection, flags, file, from);
  const std::scoped_lock hold(device_lock);
  auto& buffer = opened.buffers[static_cast<std::size_t>(from) / bytes];
  buffer.assign(bytes, 0);
  return buffer.data();
}

int munmap(void* at, std::size_t bytes) noexcept {
  for (const auto& buffer : opened.buffers)
    if (!buffer.empty() && at == buffer.data()) return 0;
  return systems<int (*)(void*, std::size_t)>("munmap")(at, bytes);
}

int stat(const char* path, struct stat* facts) noexcept {
  const auto real = systems<int (*)(const char*, struct stat*)>("stat");
  if (!isDevice(path)) return real(path, facts);
  return madeUpDevice().there ? real("/dev/null", facts) : failed(ENOENT);
}

int access(const char* path, int how) noexcept {
  if (!isDevice(path)) return systems<int (*)(const char*, int)>("access")(path, how);
  return !madeUpDevice().there ? failed(ENOENT) : madeUpDevice().permitted ? 0 : failed(EACCES);
}

}  // extern "C"
