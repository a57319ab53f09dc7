// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <gdal.h>

#include <memory>
#include <string>
#include <vector>

namespace castplan {

/// While one lives, GDAL's messages of this thread are kept here and nothing reaches the terminal.
class GdalMessages {
 public:
  GdalMessages();
  ~GdalMessages();
  GdalMessages(const GdalMessages&) = delete;
  GdalMessages& operator=(const GdalMessages&) = delete;

  /// " (GDAL: first error)" or nothing: to close a message of ours with.
  [[nodiscard]] std::string in_brackets() const;
  [[nodiscard]] bool failed() const { return !errors_.empty(); }

 private:
  std::vector<std::string> errors_;
};

struct CloseDataset {
  void operator()(void* dataset) const {
    const GdalMessages quiet;
    GDALClose(dataset);
  }
};
using Dataset = std::unique_ptr<void, CloseDataset>;

enum class DataKind { raster, vector };

/// Opens for reading with the drivers of one kind only. Throws InputError with GDAL's words for a file that is
/// missing or cannot be understood. shown: the name for messages.
Dataset open_dataset(const std::string& path, const std::string& shown, DataKind kind);

/// The files that GDAL reads for a data set, side files included, ascending.
std::vector<std::string> files_of(const std::string& path, const std::string& shown, DataKind kind);

/// The bytes of a file in GDAL's memory (/vsimem/...), which is then gone; empty when there is none.
std::string taken_bytes(const std::string& name);

/// File name without its folder; GDAL's own way of naming (NETCDF:"x.nc":depth) is left as it is.
std::string file_name(const std::string& path);

/// True for names that only GDAL understands (/vsi..., NETCDF:...) and that are no path of the file system.
bool is_gdal_name(const std::string& path);

}  // namespace castplan
