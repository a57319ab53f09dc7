// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/gdal.hpp"

#include <cpl_conv.h>
#include <cpl_error.h>
#include <cpl_string.h>
#include <cpl_vsi.h>
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <mutex>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

void CPL_STDCALL keep_message(CPLErr level, CPLErrorNum, const char* text) {
  if (level < CE_Failure) return;
  static_cast<std::vector<std::string>*>(CPLGetErrorHandlerUserData())->emplace_back(text);
}

void register_drivers() {
  static std::once_flag once;
  std::call_once(once, [] { GDALAllRegister(); });
}

}  // namespace

GdalMessages::GdalMessages() {
  register_drivers();
  CPLErrorReset();
  CPLPushErrorHandlerEx(keep_message, &errors_);
}

GdalMessages::~GdalMessages() {
  CPLPopErrorHandler();
  CPLErrorReset();
}

std::string GdalMessages::in_brackets() const {
  if (errors_.empty()) return {};
  std::string text = errors_.front();
  std::replace(text.begin(), text.end(), '\n', ' ');
  while (!text.empty() && (text.back() == ' ' || text.back() == '.')) text.pop_back();
  return fmt::format(" (GDAL: {})", text);
}

bool is_gdal_name(const std::string& path) {
  if (path.rfind("/vsi", 0) == 0) return true;
  const auto colon = path.find(':');
  if (colon == std::string::npos || colon < 2) return false;
  return std::all_of(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(colon), [](char c) {
    return std::isupper(static_cast<unsigned char>(c)) != 0 || std::isdigit(static_cast<unsigned char>(c)) != 0 ||
           c == '_';
  });
}

std::string file_name(const std::string& path) {
  if (is_gdal_name(path) && path.rfind("/vsi", 0) != 0) return path;
  const std::string name = std::filesystem::path(path).filename().string();
  return name.empty() ? path : name;
}

Dataset open_dataset(const std::string& path, const std::string& shown, DataKind kind) {
  GdalMessages messages;
  if (!is_gdal_name(path)) {
    std::error_code ignored;
    if (!std::filesystem::exists(path, ignored)) {
      throw InputError(fmt::format("{}: no such file; check the name and the folder", shown));
    }
  }
  const bool raster = kind == DataKind::raster;
  const unsigned int flags = (raster ? GDAL_OF_RASTER : GDAL_OF_VECTOR) | GDAL_OF_READONLY | GDAL_OF_VERBOSE_ERROR;
  Dataset dataset(GDALOpenEx(path.c_str(), flags, nullptr, nullptr, nullptr));
  if (!dataset) {
    throw InputError(fmt::format("{}: cannot be read as a {}; expected a file that GDAL reads, such as {}{}", shown,
                                 raster ? "raster" : "vector layer",
                                 raster ? "a GeoTIFF or an ASCII grid" : "a shapefile, GeoPackage or GeoJSON",
                                 messages.in_brackets()));
  }
  return dataset;
}

std::vector<std::string> files_of(const std::string& path, const std::string& shown, DataKind kind) {
  const Dataset dataset = open_dataset(path, shown, kind);
  const GdalMessages quiet;
  std::vector<std::string> files;
  char** list = GDALGetFileList(dataset.get());
  for (int i = 0; list != nullptr && list[i] != nullptr; ++i) {
    if (std::filesystem::is_regular_file(list[i])) files.emplace_back(list[i]);
  }
  CSLDestroy(list);
  std::sort(files.begin(), files.end());
  return files;
}

std::string taken_bytes(const std::string& name) {
  vsi_l_offset size = 0;
  GByte* bytes = VSIGetMemFileBuffer(name.c_str(), &size, TRUE);
  if (bytes == nullptr) return {};
  std::string out(reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size));
  VSIFree(bytes);
  return out;
}

}  // namespace castplan
