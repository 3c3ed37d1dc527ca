#include "engine/storage/shop_outlook.hpp"

namespace dullcast::storage {

const char* bit_place_name(BitPlace place) {
  switch (place) {
    case BitPlace::ready:
      return "ready";
    case BitPlace::at_rig:
      return "at_rig";
    case BitPlace::drilling:
      return "drilling";
    case BitPlace::on_the_road:
      return "on_the_road";
    case BitPlace::waiting_in_shop:
      return "waiting_in_shop";
    case BitPlace::on_a_bench:
      return "on_a_bench";
    case BitPlace::being_bought:
      return "being_bought";
    case BitPlace::not_there:
      return "not_there";
  }
  return "";
}

}  // namespace dullcast::storage
