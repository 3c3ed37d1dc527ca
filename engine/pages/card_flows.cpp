#include <mutex>

#include "engine/analysis/layer_hole.hpp"
#include "engine/base/threads.hpp"
#include "engine/pages/card_view.hpp"

namespace dullcast::pages {

std::vector<analysis::LeastFlow> card_flows(const scenario::Scenario& scenario, int threads,
                                            const std::function<void(int done, int all)>& tell) {
  const std::vector<double> flows = analysis::flows_to_try(scenario);
  if (flows.empty() || !(flows.back() > flows.front())) return {};
  const auto layers = static_cast<int>(scenario.column.layers.size());
  const simulation::BitCondition start = analysis::starting_condition(scenario),
                                 worn = analysis::worn_to_allowance(scenario);
  std::vector<analysis::LeastFlow> all(static_cast<std::size_t>(2 * layers));
  std::mutex telling;
  int done = 0;
  base::parallel_for(2 * layers, threads, [&](int k) {
    all[static_cast<std::size_t>(k)] =
        analysis::least_flow(scenario, k % layers, k < layers ? start : worn, flows);
    const std::lock_guard<std::mutex> lock(telling);
    ++done;
    if (tell) tell(done, 2 * layers);
  });
  return all;
}

}  // namespace dullcast::pages
