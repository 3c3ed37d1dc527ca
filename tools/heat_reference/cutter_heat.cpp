#include "tools/heat_reference/cutter_heat.hpp"

#include "models/common/domain.hpp"
#include "tools/heat_reference/march.hpp"

namespace dullcast::heat_reference {

HeatedCutter::HeatedCutter(const CutterCase& of, Fineness fineness)
    : of_(of), mesh_(mesh_cutter(of.cutter, fineness)), parts_(discretise(mesh_, of.diamond, of.carbide)) {
  require_domain(of.h_table >= 0.0 && of.h_carbide >= 0.0, "heated cutter", "convection must be at least 0",
                 of.h_table);
  require_domain(of.pocket >= 0.0, "heated cutter", "pocket conductance must be at least 0", of.pocket);
  const auto film = [&](Outside where, double h) {
    return surface_matrix(mesh_, [=](const SurfacePoint& p) { return p.outside == where ? h : 0.0; });
  };
  table_film_ = film(Outside::exposed_table, of.h_table);
  carbide_film_ = film(Outside::exposed_carbide, of.h_carbide);
  pocket_film_ = film(Outside::pocket, of.pocket);
  if (of.back_in_pocket) pocket_film_ += film(Outside::back, of.pocket);
  load_ = surface_load(mesh_, [&](const SurfacePoint& p) {
    if (p.outside != Outside::contact) return 0.0;
    return p.material == Material::diamond ? 1.0 : of_.carbide_load;
  });
  for (const SurfacePoint& p : mesh_.surface) {
    if (p.outside != Outside::contact) continue;
    flat_area_ += 2.0 * p.area;
    if (p.material == Material::diamond) diamond_flat_area_ += 2.0 * p.area;
  }
  require_domain(load_.sum() > 0.0, "heated cutter", "the flat is too small for its mesh", of.cutter.worn);
  load_ *= 0.5 / load_.sum();
  table_weights_ = volume_weights(mesh_, Material::diamond);
  table_weights_ /= table_weights_.sum();
  carbide_weights_ = volume_weights(mesh_, Material::carbide);
  carbide_weights_ /= carbide_weights_.sum();
}

Matrix HeatedCutter::exchange(double cooling) const {
  return parts_.stiffness + cooling * (table_film_ + carbide_film_) + pocket_film_;
}

Vector HeatedCutter::steady_field() const {
  const Solver solver(exchange(1.0));
  return solver.solve(load_, Vector::Zero(load_.size()));
}

double HeatedCutter::steady_resistance() const {
  return flat_rise(steady_field());
}

double HeatedCutter::flat_rise(const Vector& field) const {
  return 2.0 * load_.dot(field);
}
double HeatedCutter::table_mean(const Vector& field) const {
  return table_weights_.dot(field);
}
double HeatedCutter::carbide_mean(const Vector& field) const {
  return carbide_weights_.dot(field);
}

HeatedCutter::Losses HeatedCutter::losses(const Vector& field) const {
  const auto through = [&](const Matrix& film) { return 2.0 * (film * field).sum(); };
  return {through(table_film_), through(carbide_film_), through(pocket_film_)};
}

std::vector<Sample> transient(const HeatedCutter& cutter, const std::vector<Stage>& stages,
                              const std::vector<double>& times, int steps_per_doubling) {
  std::vector<MarchStage> march_stages;
  for (const Stage& stage : stages)
    march_stages.push_back({stage.duration, cutter.exchange(stage.cooling), stage.heat * cutter.load()});
  std::vector<Sample> samples;
  march(
      cutter.mass(), march_stages, Vector::Zero(cutter.load().size()), times, steps_per_doubling,
      [&](double t, const Vector& field) {
        samples.push_back({t, cutter.flat_rise(field), cutter.table_mean(field), cutter.carbide_mean(field)});
      });
  return samples;
}

}  // namespace dullcast::heat_reference
