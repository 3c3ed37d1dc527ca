#pragma once

#include <string>
#include <vector>

#include "engine/sweep/sweep_plan_reader.hpp"

namespace dullcast::sweep {

/// All that a sweep began with: enough to make any of its cases again on any machine, and to tell whether
/// what it would be gone on with is still the same.
struct SweepManifest {
  std::string program;         // name, version, commit
  std::string program_digits;  // CRC-32 of the program's own file
  std::string arithmetic;      // see arithmetic_digits()
  long cases_per_chunk = 1;
  SweepTexts texts;  // file names without folders, so that a sweep may be moved
};

/// As YAML; the same manifest gives the same text.
std::string manifest_text(const SweepManifest& manifest);

/// Reads that text. Throws ScenarioErrors.
SweepManifest read_manifest(const std::string& text, const std::string& file);

/// CRC-32 of the text, eight hexadecimal digits: parts carry it, so that those of another sweep are known.
std::string fingerprint_of(const SweepManifest& manifest);

/// What is no longer the same, one sentence each, with the first lines that differ; empty when nothing is.
std::vector<std::string> differences(const SweepManifest& then, const SweepManifest& now);
/// Sentences below the one that they follow, each on a line of its own.
std::string told_below(const std::vector<std::string>& sentences);

/// CRC-32 of what this machine's mathematical functions return at some points. They may differ in the last
/// bit between processors, and runs with them.
std::string arithmetic_digits();

/// CRC-32 of bytes as eight hexadecimal digits.
std::string digits_of(const std::string& bytes);

}  // namespace dullcast::sweep
