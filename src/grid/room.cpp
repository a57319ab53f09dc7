// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/room.hpp"

#include <cstdlib>

#ifdef __linux__
#include <sys/mman.h>
#endif

namespace castplan {

namespace {

constexpr std::size_t kHugePage = std::size_t{2} << 20;
constexpr std::size_t kLarge = 8 * kHugePage;  ///< smaller ones are taken again and again: those come from the heap

#ifdef __linux__
std::size_t rounded(std::size_t bytes) { return (bytes + kHugePage - 1) / kHugePage * kHugePage; }

/// Begins on a huge page; nothing where the system gives none.
void* map_huge(std::size_t bytes) {
  const std::size_t size = rounded(bytes);
  void* got = mmap(nullptr, size + kHugePage, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  if (got == MAP_FAILED) return nullptr;
  auto* begin = static_cast<char*>(got);
  const std::size_t before = (kHugePage - reinterpret_cast<std::size_t>(begin) % kHugePage) % kHugePage;
  if (before > 0) munmap(begin, before);
  munmap(begin + before + size, kHugePage - before);
  madvise(begin + before, size, MADV_HUGEPAGE);  // a wish: what the system makes of it changes nothing but time
  return begin + before;
}
#endif

}  // namespace

void* take_room(std::size_t bytes) {
#ifdef __linux__
  void* room = bytes >= kLarge ? map_huge(bytes) : std::calloc(bytes, 1);
#else
  void* room = std::calloc(bytes, 1);
#endif
  if (room == nullptr && bytes > 0) throw std::bad_alloc();
  return room;
}

void give_back_room(void* room, std::size_t bytes) noexcept {
#ifdef __linux__
  if (bytes >= kLarge) {
    munmap(room, rounded(bytes));
    return;
  }
#endif
  std::free(room);
}

}  // namespace castplan
