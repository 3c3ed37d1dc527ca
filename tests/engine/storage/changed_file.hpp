#pragma once

#include <H5Cpp.h>

#include <functional>
#include <string>

/// Files as somebody else may have made them, for testing what readers say of them.
namespace dullcast::storage::changed_file {

/// Ends the file with the checksum of its bytes; one that it has already is taken off first.
void seal(const std::string& path);

/// Lets HDF5 change the file in place and ends it with a checksum again, as anyone can who means ill.
void change(const std::string& path, const std::function<void(H5::H5File&)>& how);

}  // namespace dullcast::storage::changed_file
