#!/usr/bin/env bash
# The program as linked: random addresses, no code on the stack, relocations read-only from the start, guarded stack, checked lengths.
# Usage: hardened.sh PROGRAM
set -euo pipefail
program=$1
failed=0
expect() {  # what it means, pattern, text
  if ! grep -qE "$2" <<<"$3"; then
    echo "$program: $1: not so"
    failed=1
  fi
}
header=$(readelf -hW "$program")
segments=$(readelf -lW "$program")
dynamic=$(readelf -dW "$program")
symbols=$(readelf --dyn-syms -W "$program")
expect "loads at a random address" 'Type: +DYN' "$header"
expect "stack holds no code" 'GNU_STACK .* RW +0x' "$segments"
expect "relocations are read-only once done" 'GNU_RELRO' "$segments"
expect "all symbols are bound at the start" 'BIND_NOW|FLAGS.* NOW' "$dynamic"
expect "returns are guarded against overrun buffers" '__stack_chk_fail' "$symbols"
expect "lengths of copies are checked" '__[a-z]+_chk@' "$symbols"
exit $failed
