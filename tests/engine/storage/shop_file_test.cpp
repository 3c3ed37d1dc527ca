#include "engine/storage/shop_file.hpp"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <limits>
#include <set>
#include <sstream>

#include "engine/base/file_error.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/changed_file.hpp"
#include "engine/storage/made_up_run.hpp"
#include "engine/storage/same_shop.hpp"
#include "engine/storage/sample_shop.hpp"
#include "engine/storage/seal_file.hpp"
#include "engine/storage/shop_format.hpp"
#include "engine/storage/stored_run.hpp"
#include "engine/storage/write_result.hpp"
#include "models/condition/repair.hpp"

namespace dullcast::storage {
namespace {

using same_shop::same;

ShopOutlook there_and_back(const ShopOutlook& outlook) {
  const made_up::Folder folder;
  write_shop(folder / "shop.h5", outlook);
  EXPECT_EQ(folder.names(), std::vector<std::string>{"shop.h5"});
  return read_shop(folder / "shop.h5");
}

/// What is said of a shop's file changed in some way; "read" when nothing is.
template <class Change>
std::string said_of(const Change& change) {
  const made_up::Folder folder;
  const std::string path = folder / "shop.h5";
  write_shop(path, sample::shop());
  changed_file::change(path, change);
  try {
    read_shop(path);
  } catch (const base::FileError& error) {
    EXPECT_TRUE(base::is_plain(error.reason())) << error.reason();
    return error.reason();
  }
  return "read";
}

std::string damage(const std::string& why) {
  return "this shop's outlook is damaged: " + why + "; copy it anew, or run its plan again";
}

TEST(ShopFile, EveryMemberComesBackBitForBit) {
  const ShopOutlook outlook = sample::shop();
  EXPECT_TRUE(same(there_and_back(outlook), outlook));
}

TEST(ShopFile, AwkwardValuesComeBackBitForBit) {
  ShopOutlook outlook = sample::shop();
  const double inf = std::numeric_limits<double>::infinity(), nan = std::nan("7");
  outlook.bits[2].due = {nan, -inf, inf, -0.0};
  outlook.bits[2].due_after_hole = -1;
  outlook.bits[3].name =
      "H\xc3\xb6"
      "fer, the \"old\" one; \xe2\x84\x96 7";
  outlook.bits[4].days.back().fill(nan);
  outlook.holes[79].by_bit[11] = std::numeric_limits<double>::denorm_min();
  outlook.stations[4].weeks[25].work.high = std::numeric_limits<double>::max();
  outlook.cutters[1].weeks[25].stock_out = nan;
  outlook.begins = -4'000'000'000;
  outlook.plan_text = "a\ttext\nof lines\n" + std::string(200'000, 'x');
  EXPECT_TRUE(same(there_and_back(outlook), outlook));
}

TEST(ShopFile, AnOutlookOfNothingComesBack) {
  EXPECT_TRUE(same(there_and_back({}), ShopOutlook{}));
}

TEST(ShopFile, TextsFromElsewhereComeBackAsTheyMayBeShown) {
  ShopOutlook outlook = sample::shop();
  outlook.bits[0].name = "\x1b[31mred";
  outlook.first_failure = "two\nlines";
  const ShopOutlook stored = there_and_back(outlook);
  EXPECT_EQ(stored.bits[0].name, "\\x1b[31mred");
  EXPECT_EQ(stored.first_failure, "two\\nlines");
}

TEST(ShopFile, TheSameOutlookGivesTheSameBytes) {
  const made_up::Folder folder;
  write_shop(folder / "one.h5", sample::shop());
  write_shop(folder / "two.h5", sample::shop());
  EXPECT_EQ(base::read_whole_file(folder / "one.h5"), base::read_whole_file(folder / "two.h5"));
}

TEST(ShopFile, TablesThatAreNotAsLongAsTheyMustBeAreNotWritten) {
  const auto refused = [](const auto& spoil) {
    const made_up::Folder folder;
    ShopOutlook outlook = sample::shop();
    spoil(outlook);
    EXPECT_THROW(write_shop(folder / "shop.h5", outlook), base::FileError);
    EXPECT_TRUE(folder.names().empty());
  };
  refused([](ShopOutlook& shop) { shop.stations[1].weeks.pop_back(); });
  refused([](ShopOutlook& shop) { shop.cutters[1].weeks.emplace_back(); });
  refused([](ShopOutlook& shop) { shop.bits[5].days.pop_back(); });
  refused([](ShopOutlook& shop) { shop.holes[5].by_bit.pop_back(); });
}

TEST(ShopFile, WhatIsMissingOrOfAnotherShapeIsDamaged) {
  EXPECT_EQ(said_of([](H5::H5File&) {}), "read");
  EXPECT_EQ(said_of([](H5::H5File& file) { file.unlink("/stations/week_open"); }),
            damage("/stations/week_open is missing"));
  EXPECT_EQ(said_of([](H5::H5File& file) { file.unlink("/early_pulls"); }),
            damage("/early_pulls is missing"));
  EXPECT_EQ(said_of([](H5::H5File& file) {
              file.unlink("/bits/days");
              const hsize_t lengths[] = {12, 8, 182};
              file.createDataSet("/bits/days", H5::PredType::IEEE_F64LE, H5::DataSpace(3, lengths))
                  .write(std::vector<double>(std::size_t{12} * 8 * 182).data(), H5::PredType::NATIVE_DOUBLE);
            }),
            damage("/bits/days has another shape than it should"));
  EXPECT_EQ(said_of([](H5::H5File& file) {
              file.unlink("/summary/begins");
              const double begins = 0.5;
              file.createDataSet("/summary/begins", H5::PredType::IEEE_F64LE, H5::DataSpace())
                  .write(&begins, H5::PredType::NATIVE_DOUBLE);
            }),
            damage("/summary/begins holds another kind of value than it should"));
}

TEST(ShopFile, BitsAndHolesThatAreNotThereAreDamage) {
  const auto set = [](const std::string& name, std::vector<int> values) {
    return said_of([&](H5::H5File& file) {
      H5::DataSet dataset = file.openDataSet(name);
      values.resize(static_cast<std::size_t>(dataset.getSpace().getSimpleExtentNpoints()), 1);
      dataset.write(values.data(), H5::PredType::NATIVE_INT);
    });
  };
  EXPECT_EQ(set("/bits/due_after_hole", {0, 80}), "read");
  EXPECT_EQ(set("/bits/due_after_hole", {81}), damage("/bits/due_after_hole names one that is not there"));
  EXPECT_EQ(set("/bits/due_after_hole", {-1}), damage("/bits/due_after_hole names one that is not there"));
  EXPECT_EQ(set("/early_pulls/of_bit", {13}), damage("/early_pulls/of_bit names one that is not there"));
  EXPECT_EQ(set("/early_pulls/after_hole", {0}),
            damage("/early_pulls/after_hole names one that is not there"));
}

TEST(ShopFile, AnotherVersionOrKindIsRefused) {
  EXPECT_EQ(said_of([](H5::H5File& file) {
              const int version[] = {2, 0};
              file.openGroup("/").openAttribute("format_version").write(H5::PredType::NATIVE_INT, version);
            }),
            "this shop's outlook has format 2.0; this program reads format 1: use a newer dullcast");
  const made_up::Folder folder;
  write_shop(folder / "shop.h5", sample::shop());
  write_result(folder / "run.h5", made_up::scenario(3), made_up::plain_outcome(3, 4));
  try {
    read_result(folder / "shop.h5");
    FAIL() << "a shop was read as a run";
  } catch (const OtherKindOfFile& other) {
    EXPECT_TRUE(other.is(shop_file));
  }
  EXPECT_THROW(read_shop(folder / "run.h5"), OtherKindOfFile);
}

TEST(ShopFile, WrongBytesAreTold) {
  const made_up::Folder folder;
  const std::string path = folder / "shop.h5";
  write_shop(path, sample::shop());
  std::vector<std::byte> bytes = base::read_whole_file(path);
  bytes[bytes.size() / 2] ^= std::byte{1};
  base::write_whole_file(path, bytes);
  EXPECT_THROW(read_shop(path), base::FileError);
  bytes[bytes.size() / 2] ^= std::byte{1};
  bytes.resize(bytes.size() - 16);
  base::write_whole_file(path, bytes);
  EXPECT_THROW(read_shop(path), base::FileError);
  EXPECT_EQ(write_sealed_copy(path, folder / "sealed.h5"), shop_format::file_type);
  EXPECT_TRUE(same(read_shop(folder / "sealed.h5"), sample::shop()));
}

TEST(ShopFile, ClassesOfRepairAreNamedAsTheModelNamesThem) {
  for (std::size_t k = 0; k < repair_classes; ++k)
    EXPECT_STREQ(shop_format::repair_names[k],
                 condition::repair_class_name(static_cast<condition::RepairClass>(k)));
}

/// The table rows "| `name` | unit |" of the page's section on a group.
std::multiset<std::string> rows_on_page(const std::string& page, const std::string& group) {
  const std::string title = "#### `" + group + "`\n";
  const std::size_t start = page.find(title, page.find("\n## Shops\n"));
  if (start == std::string::npos) return {"no section " + group};
  std::istringstream section(page.substr(start, page.find("\n##", start + 1) - start));
  std::multiset<std::string> rows;
  for (std::string line; std::getline(section, line);)
    if (line.rfind("| `", 0) == 0) rows.insert(line.substr(0, line.find('|', line.find('|', 1) + 1) + 1));
  return rows;
}

template <class... Rows>
void expect_on_page(const std::string& page, const std::string& group, std::multiset<std::string> others,
                    const shop_format::ShopFields<Rows>&... fields) {
  const auto add = [&](const auto& list) {
    for (const auto& field : list) {
      const std::string units = field.units;
      others.insert("| `" + std::string(field.name) + "` | " + (units.empty() ? "text" : units) + " |");
    }
  };
  (add(fields), ...);
  EXPECT_EQ(rows_on_page(page, group), others) << "results/README.md, " << group;
}

TEST(ShopFile, ThePageDescribesEveryDatasetWithItsUnit) {
  std::ostringstream text;
  text << std::ifstream(std::string(DULLCAST_SOURCE_DIR) + "/results/README.md").rdbuf();
  const std::string page = text.str();
  namespace format = shop_format;
  expect_on_page(page, "summary", {"| `begins` | seconds since 1970-01-01 00:00:00 |"},
                 format::summary_fields());
  expect_on_page(page, "money", {}, format::shop_money_fields());
  expect_on_page(page, "weeks", {}, format::week_fields());
  expect_on_page(page, "stations", {}, format::station_fields(), format::station_week_fields());
  expect_on_page(page, "cutters", {}, format::stock_fields(), format::stock_week_fields());
  expect_on_page(page, "bits", {"| `days` | 1 |"}, format::fleet_fields());
  expect_on_page(page, "holes", {"| `by_bit` | 1 |"}, format::booked_fields());
  expect_on_page(page, "changes", {}, format::change_fields());
  expect_on_page(page, "early_pulls", {}, format::pull_fields());
  for (std::size_t k = 0; k < bit_places; ++k)
    EXPECT_NE(page.find(std::string("`") + bit_place_name(static_cast<BitPlace>(k)) + "`"),
              std::string::npos);
  EXPECT_NE(page.find("| 1." + std::to_string(format::minor_version) + " | the first |",
                      page.find("| format of shops | change |")),
            std::string::npos);
}

/// netCDF4, xarray, h5dump and UDUNITS know nothing of us.
TEST(ShopFile, NetcdfXarrayAndH5dumpReadIt) {
  const made_up::Folder folder;
  write_shop(folder / "shop.h5", sample::shop());
  const std::string command = std::string("/usr/bin/python3 '") + DULLCAST_SOURCE_DIR +
                              "/tests/engine/storage/open_shop_elsewhere.py' '" + (folder / "shop.h5") +
                              "' > '" + (folder / "said.txt") + "' 2>&1";
  std::ostringstream text;
  const int code = std::system(command.c_str());
  text << std::ifstream(folder / "said.txt").rdbuf();
  EXPECT_EQ(code, 0) << text.str();
}

}  // namespace
}  // namespace dullcast::storage
