// rackwright: what a sprouting rack must be so that every feeding has a sound mat.

#include <string>
#include <vector>

#include "sim/app/commands.hpp"

int main(int argc, char** argv) {
  return rackwright::app::run(std::vector<std::string>(argv + (argc > 0 ? 1 : 0), argv + argc));
}
