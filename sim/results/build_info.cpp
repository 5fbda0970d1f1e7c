#include "sim/results/build_info.hpp"

#include "sim/results/hdf5.hpp"

namespace rackwright::results {

std::string program_version() { return RACKWRIGHT_VERSION; }

void add_build_info(Header& header) {
  h5::be_quiet();
  unsigned major = 0, minor = 0, release = 0;
  H5get_libversion(&major, &minor, &release);
  header.program_version = program_version();
  header.commit = RACKWRIGHT_COMMIT;
  header.compiler = RACKWRIGHT_COMPILER;
  header.flags = RACKWRIGHT_FLAGS;
  header.dependencies = "HDF5 " + std::to_string(major) + "." + std::to_string(minor) + "." + std::to_string(release) +
                        "; " RACKWRIGHT_DEPENDENCIES;
}

}  // namespace rackwright::results
