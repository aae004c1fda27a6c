#!/bin/sh
# Sets up what the tests need on Debian 12 beside the .NET SDK, and runs them all. Run as root, or with the packages installed already.
set -eu
cd "$(dirname "$0")/.."

packages="gcc g++ make clang-14 libclang-rt-14-dev cppcheck libicu72 zlib1g-dev
gcc-avr binutils-avr avr-libc libsimavr-dev
gcc-arm-none-eabi binutils-arm-none-eabi
gcc-riscv64-unknown-elf binutils-riscv64-unknown-elf
gcc-xtensa-lx106 binutils-xtensa-lx106"

missing=""
for package in $packages; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q "install ok installed" || missing="$missing $package"
done
if [ -n "$missing" ]; then
    apt-get update
    # shellcheck disable=SC2086
    DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $missing
fi

exec dotnet test --solution RadioLint.sln -c Release --no-progress
