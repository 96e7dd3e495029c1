#!/bin/sh
# Makes sure that a Chromium is there for the browser tests; installs Debian's where that is possible.
set -u
for name in chromium chromium-browser google-chrome; do
  command -v "$name" >/dev/null 2>&1 && exit 0
done
if command -v apt-get >/dev/null 2>&1; then
  if [ "$(id -u)" = 0 ]; then run=""; else run="sudo -n"; fi
  echo "Installing Chromium for the browser tests"
  $run apt-get update -qq && $run env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq chromium >/dev/null && exit 0
fi
echo "The browser tests need Chromium. This puts it right: apt-get install chromium"
exit 1
