// Runs a command with its output thrown away and prints its largest resident memory in MB (10^6 bytes). This is a program of its own
// because a child's peak counts what its parent held when it was started: this parent holds next to nothing.
#include <cstdio>
#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

int main(int argc, char** argv) {
  if (argc < 2) return 2;
  const pid_t child = ::fork();
  if (child == 0) {
    const int nowhere = ::open("/dev/null", O_RDWR);
    ::dup2(nowhere, STDOUT_FILENO);
    ::execv(argv[1], argv + 1);
    _exit(127);
  }
  int status = 0;
  struct rusage usage {};
  if (child < 0 || ::wait4(child, &status, 0, &usage) != child || !WIFEXITED(status) || WEXITSTATUS(status) != 0) {
    std::fputs("The command failed.\n", stderr);
    return 1;
  }
  std::printf("%.1f\n", static_cast<double>(usage.ru_maxrss) * 1024 / 1e6);
  return 0;
}
