// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <new>
#include <utility>

namespace castplan {

/// Memory full of zeros for the cells of a grid. Nothing is touched until it is used, so that the threads of a sweep
/// share the cost of the first touch; large pieces ask the system for huge pages, which makes it ten times less.
/// Throws std::bad_alloc.
void* take_room(std::size_t bytes);
void give_back_room(void* room, std::size_t bytes) noexcept;

/// Hands out zeros, so that cells that begin as zeros need not be written.
template <class T>
struct CellAllocator {
  using value_type = T;

  CellAllocator() = default;
  template <class Other>
  explicit CellAllocator(const CellAllocator<Other>&) {}

  T* allocate(std::size_t count) {
    if (count > static_cast<std::size_t>(-1) / 2 / sizeof(T)) throw std::bad_alloc();
    return static_cast<T*>(take_room(count * sizeof(T)));
  }
  void deallocate(T* cells, std::size_t count) noexcept { give_back_room(cells, count * sizeof(T)); }

  template <class Other, class... Values>
  void construct(Other* at, Values&&... values) {
    if constexpr (sizeof...(Values) > 0) ::new (static_cast<void*>(at)) Other(std::forward<Values>(values)...);
  }

  bool operator==(const CellAllocator&) const = default;
};

}  // namespace castplan
