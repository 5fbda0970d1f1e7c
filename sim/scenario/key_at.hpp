#pragma once
// For the keys_*.cpp files only: AT(path) is a stateless accessor to a field, const or not.
#define AT(path) ([](auto& x) -> auto& { return x.path; })
