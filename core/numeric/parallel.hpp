#pragma once
// Work spread over the cores, in blocks; serial where there are no threads (WebAssembly).

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <thread>
#include <vector>

namespace strikewright {

/// Calls work(i) once for every i in [0, n). Blocks of `block` neighbours go to whichever core is free, so
/// the order is not fixed: each call may write only what belongs to its own i. Then the result is the same
/// for any number of threads. The first exception that a call throws is thrown again here, after all threads
/// have stopped.
/// @param block at least 1   @param threads 0 = as many as the machine has cores
template <class Work>
void parallel_for(std::size_t n, std::size_t block, const Work& work, unsigned threads = 0) {
#if defined(__EMSCRIPTEN__) && !defined(__EMSCRIPTEN_PTHREADS__)
  threads = 1;
#endif
  const std::size_t blocks = (n + block - 1) / block;
  if (threads == 0) threads = std::max(1u, std::thread::hardware_concurrency());
  if (threads == 1 || blocks <= 1) {
    for (std::size_t i = 0; i < n; ++i) work(i);
    return;
  }
  std::atomic<std::size_t> next{0};
  std::vector<std::exception_ptr> thrown(threads);
  const auto run = [&](std::size_t self) {
    try {
      for (std::size_t b = next++; b < blocks; b = next++)
        for (std::size_t i = b * block; i < std::min(n, (b + 1) * block); ++i) work(i);
    } catch (...) {
      thrown[self] = std::current_exception();
      next = blocks;
    }
  };
  {
    std::vector<std::jthread> pool;
    for (unsigned t = 1; t < threads; ++t) pool.emplace_back(run, t);
    run(0);
  }
  for (const std::exception_ptr& e : thrown)
    if (e) std::rethrow_exception(e);
}

}  // namespace strikewright
