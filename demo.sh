#!/bin/sh
# The main job on real input: prove every example, find every planted mistake,
# draw them all, open the page (or say how, where nobody is looking).
set -eu
bin=$1
out=out/demo
mkdir -p "$out"
"$bin" check examples/*.yaml || [ $? = 1 ] # one of them honestly cannot be told
echo
echo "The same mistakes that people make, and the findings that name them:"
for f in examples/broken/*.yaml; do
	echo
	sed -n '1s/^# */  /p' "$f"
	"$bin" check --quiet "$f" || [ $? = 1 ]
done
for f in examples/*.yaml; do
	"$bin" draw "$f" -o "$out/$(basename "$f" .yaml).svg"
done
looms=$out/looms # copies, to be changed and saved at will
mkdir -p "$looms"
for f in examples/*.yaml; do
	[ -e "$looms/${f##*/}" ] || cp "$f" "$looms/"
done
echo
echo "The drawings are in $out/. The page on these looms:  $bin serve $looms"
if [ -n "${CI:-}" ] || ! [ -t 0 ] || ! [ -t 1 ]; then
	exit 0 # nobody is looking
fi
"$bin" serve "$looms" --address 127.0.0.1:0 >"$out/address" &
trap 'kill $! 2>/dev/null; exit 0' INT TERM
while [ ! -s "$out/address" ]; do
	kill -0 $! || exit 1
	sleep 0.1
done
page=$(cat "$out/address")
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ] && command -v xdg-open >/dev/null; then
	xdg-open "$page"
elif [ "$(uname)" = Darwin ]; then
	open "$page"
fi
echo "It is at $page until Ctrl-C."
wait
