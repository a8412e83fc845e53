#!/bin/sh
# The main job on real input: prove every example, find every planted mistake,
# draw them all.
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
echo
echo "Open the drawings in $out/, or all of it in a browser:  $bin serve examples"
