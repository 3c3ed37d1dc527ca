#include "engine/sweep/ranks.hpp"

#include <cstdlib>

#ifdef DULLCAST_MPI
#include <mpi.h>
#endif

namespace dullcast::sweep {

#ifdef DULLCAST_MPI

namespace {

/// Launchers tell the processes that they start so by their environment: Open MPI's own, PMIx and PMI-1/2
/// ones (Slurm's srun among them).
bool started_by_launcher() {
  for (const char* name : {"OMPI_COMM_WORLD_SIZE", "PMIX_RANK", "PMI_RANK", "PMI_SIZE"}) {
    if (std::getenv(name) != nullptr) return true;
  }
  return false;
}

/// Debian's settings file for Open MPI leaves out pt2pt, its only way to another host's memory over a network
/// that has none of its own (TCP), and MPI_Win_allocate then fails between hosts. A setting in the
/// environment goes before that file; one that the user made stays.
void allow_plain_networks() {
  constexpr int leave_the_users = 0;
  ::setenv("OMPI_MCA_osc", "^ucx", leave_the_users);
}

/// Rank 0's memory that all add to. Temperatures are kept in thousandths of a kelvin, for whole numbers add
/// up the same in any order.
class SharedSource : public ChunkSource {
 public:
  explicit SharedSource(int rank) {
    const MPI_Aint bytes = rank == 0 ? static_cast<MPI_Aint>(slots * sizeof(long)) : 0;
    MPI_Win_allocate(bytes, sizeof(long), MPI_INFO_NULL, MPI_COMM_WORLD, &memory_, &window_);
    if (rank == 0) {
      MPI_Win_lock(MPI_LOCK_EXCLUSIVE, 0, 0, window_);
      for (int k = 0; k < slots; ++k) memory_[k] = 0;
      MPI_Win_unlock(0, window_);
    }
    MPI_Barrier(MPI_COMM_WORLD);
    MPI_Win_lock_all(0, window_);
  }
  ~SharedSource() override {
    MPI_Win_unlock_all(window_);
    MPI_Win_free(&window_);
  }
  SharedSource(const SharedSource&) = delete;
  SharedSource& operator=(const SharedSource&) = delete;

  long take() override { return fetch(next, 1, MPI_SUM); }
  void report(const Tally& gained) override {
    if (gained.cases != 0) fetch(cases, gained.cases, MPI_SUM);
    if (gained.failures != 0) fetch(failures, gained.failures, MPI_SUM);
    if (gained.hottest > 0.0) fetch(hottest, static_cast<long>(gained.hottest * 1000.0), MPI_MAX);
  }
  Tally total() override {
    return {fetch(cases, 0, MPI_NO_OP), fetch(failures, 0, MPI_NO_OP),
            static_cast<double>(fetch(hottest, 0, MPI_NO_OP)) / 1000.0};
  }
  void attend() override {
    // Where the network cannot reach into memory by itself, others' fetches move on only while this rank is
    // in a call of MPI's.
    int waiting = 0;
    MPI_Iprobe(MPI_ANY_SOURCE, MPI_ANY_TAG, MPI_COMM_WORLD, &waiting, MPI_STATUS_IGNORE);
  }
  void stop() override { fetch(stops, 1, MPI_SUM); }
  bool stopped() override { return fetch(stops, 0, MPI_NO_OP) != 0; }

 private:
  enum Slot { next, cases, failures, hottest, stops, slots };

  long fetch(Slot slot, long value, MPI_Op operation) {
    long before = 0;
    MPI_Fetch_and_op(&value, &before, MPI_LONG, 0, slot, operation, window_);
    MPI_Win_flush(0, window_);
    return before;
  }

  long* memory_ = nullptr;
  MPI_Win window_ = MPI_WIN_NULL;
};

}  // namespace

bool Ranks::built_with_mpi() {
  return true;
}

Ranks::Ranks() {
  if (!started_by_launcher()) return;
  allow_plain_networks();
  int given = 0;
  MPI_Init_thread(nullptr, nullptr, MPI_THREAD_FUNNELED, &given);
  MPI_Comm_rank(MPI_COMM_WORLD, &rank_);
  MPI_Comm_size(MPI_COMM_WORLD, &count_);
  joined_ = true;
}

Ranks::~Ranks() {
  if (joined_) MPI_Finalize();
}

void Ranks::share(std::string& text) const {
  if (!joined_) return;
  long length = static_cast<long>(text.size());
  MPI_Bcast(&length, 1, MPI_LONG, 0, MPI_COMM_WORLD);
  text.resize(static_cast<std::size_t>(length));
  MPI_Bcast(text.data(), static_cast<int>(length), MPI_CHAR, 0, MPI_COMM_WORLD);
}

void Ranks::share(std::vector<long>& numbers) const {
  if (!joined_) return;
  long length = static_cast<long>(numbers.size());
  MPI_Bcast(&length, 1, MPI_LONG, 0, MPI_COMM_WORLD);
  numbers.resize(static_cast<std::size_t>(length));
  MPI_Bcast(numbers.data(), static_cast<int>(length), MPI_LONG, 0, MPI_COMM_WORLD);
}

bool Ranks::all(bool holds) const {
  if (!joined_) return holds;
  int mine = holds ? 1 : 0, least = 0;
  MPI_Allreduce(&mine, &least, 1, MPI_INT, MPI_MIN, MPI_COMM_WORLD);
  return least == 1;
}

std::string Ranks::first_complaint(const std::string& mine) const {
  if (!joined_) return mine;
  const int complainer = mine.empty() ? count_ : rank_;
  int least = count_;
  MPI_Allreduce(&complainer, &least, 1, MPI_INT, MPI_MIN, MPI_COMM_WORLD);
  if (least == count_) return {};
  std::string text = mine;
  long length = static_cast<long>(text.size());
  MPI_Bcast(&length, 1, MPI_LONG, least, MPI_COMM_WORLD);
  text.resize(static_cast<std::size_t>(length));
  MPI_Bcast(text.data(), static_cast<int>(length), MPI_CHAR, least, MPI_COMM_WORLD);
  return text;
}

double Ranks::sum(double mine) const {
  if (!joined_) return mine;
  double all = 0.0;
  MPI_Allreduce(&mine, &all, 1, MPI_DOUBLE, MPI_SUM, MPI_COMM_WORLD);
  return all;
}

std::unique_ptr<ChunkSource> Ranks::make_source() const {
  if (!joined_) return std::make_unique<OwnSource>();
  return std::make_unique<SharedSource>(rank_);
}

void Ranks::abandon(int code) const {
  if (joined_) MPI_Abort(MPI_COMM_WORLD, code);
  std::_Exit(code);
}

#else

bool Ranks::built_with_mpi() {
  return false;
}
Ranks::Ranks() = default;
Ranks::~Ranks() = default;
void Ranks::share(std::string&) const {}
void Ranks::share(std::vector<long>&) const {}
bool Ranks::all(bool holds) const {
  return holds;
}
std::string Ranks::first_complaint(const std::string& mine) const {
  return mine;
}
double Ranks::sum(double mine) const {
  return mine;
}
std::unique_ptr<ChunkSource> Ranks::make_source() const {
  return std::make_unique<OwnSource>();
}
void Ranks::abandon(int code) const {
  std::_Exit(code);
}

#endif

}  // namespace dullcast::sweep
