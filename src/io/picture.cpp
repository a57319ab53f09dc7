// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/picture.hpp"

#include <cpl_conv.h>
#include <cpl_string.h>
#include <cpl_vsi.h>
#include <fmt/format.h>

#include <atomic>
#include <cassert>
#include <cstddef>

#include "castplan/geo/error.hpp"
#include "io/gdal.hpp"

namespace castplan {
std::string png(std::span<const std::uint8_t> pixels, int width, int height) {
  assert(width > 0 && height > 0);
  assert(pixels.size() == std::size_t{4} * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  const GdalMessages messages;
  Dataset memory(GDALCreate(GDALGetDriverByName("MEM"), "", width, height, 4, GDT_Byte, nullptr));
  GDALDriverH driver = GDALGetDriverByName("PNG");
  if (!memory || driver == nullptr) throw OutputError("picture: GDAL was built without its PNG writer");
  const auto line = static_cast<GSpacing>(4) * width;
  // GDAL's interface is not const-correct; writing from the pixels leaves them alone
  void* source = const_cast<std::uint8_t*>(pixels.data());
  if (GDALDatasetRasterIOEx(memory.get(), GF_Write, 0, 0, width, height, source, width, height, GDT_Byte, 4, nullptr, 4,
                            line, 1, nullptr) != CE_None) {
    throw OutputError("picture: cannot be built" + messages.in_brackets());
  }
  const GDALColorInterp roles[] = {GCI_RedBand, GCI_GreenBand, GCI_BlueBand, GCI_AlphaBand};
  for (int band = 1; band <= 4; ++band) {
    GDALSetRasterColorInterpretation(GDALGetRasterBand(memory.get(), band), roles[band - 1]);
  }
  static std::atomic<unsigned> number{0};
  const std::string name = fmt::format("/vsimem/castplan_picture_{}.png", number++);
  Dataset written(GDALCreateCopy(driver, name.c_str(), memory.get(), FALSE, nullptr, nullptr, nullptr));
  const bool good = written != nullptr;
  written.reset();
  std::string bytes = taken_bytes(name);
  VSIUnlink((name + ".aux.xml").c_str());
  if (!good || bytes.empty()) throw OutputError("picture: cannot be written as PNG" + messages.in_brackets());
  return bytes;
}

}  // namespace castplan
