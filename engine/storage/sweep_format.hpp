#pragma once

/// Names that the writer and the reader of sweep files share.
namespace dullcast::storage::sweep_format {

inline constexpr const char* file_type = "dullcast sweep";
// A reader reads any minor version of its own major version; see results/README.md.
inline constexpr int major_version = 1, minor_version = 1;
inline constexpr const char* roles[] = {"coordinate", "setting", "uncertain", "outcome"};
inline constexpr int message_length = 240;  // bytes kept of a failure's sentence

}  // namespace dullcast::storage::sweep_format
