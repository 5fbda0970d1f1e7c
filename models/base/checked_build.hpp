#pragma once
// Whether the compiler builds its address or thread checker in: gcc tells by a macro, clang by a feature.

#if defined(__SANITIZE_THREAD__) || defined(__SANITIZE_ADDRESS__)
#define RACKWRIGHT_CHECKED 1
#elif defined(__has_feature)
#if __has_feature(thread_sanitizer) || __has_feature(address_sanitizer)
#define RACKWRIGHT_CHECKED 1
#endif
#endif
#ifndef RACKWRIGHT_CHECKED
#define RACKWRIGHT_CHECKED 0
#endif
