#pragma once

#include <cstddef>
#include <exception>
#include <string>

/// What fails because of the machine (memory, threads, disks) and not because of what it was given to do. The
/// two must not be mixed up: the same work may well be done on another day.
namespace dullcast::base {

/// Whether an exception is the machine's fault: no memory (std::bad_alloc), no thread or another refusal of
/// the operating system (std::system_error), a file that cannot be read or written (FileError).
bool is_machine_fault(const std::exception& error);

/// What an exception says as one sentence for a person, without a full stop: as what() has it, but where that
/// is a word of the language's only ("std::bad_alloc").
std::string machine_sentence(const std::exception& error);

/// Throws std::bad_alloc when the system has not this much memory in one piece. For calling libraries that
/// end the process themselves when they get none: what was asked for here is given back first, so that they
/// find it. Other threads may take it in between: that much is left to chance.
void ask_for_memory(std::size_t bytes);

/// About how many bytes of memory this process can still get, by the machine and by its limit on addresses;
/// infinite where neither is known.
double memory_to_be_had();

}  // namespace dullcast::base
