# The one call that the demo and the wheel check share.
# shellcheck shell=bash

# verdict_on_example THROWBENCH EXAMPLE OUT: the verdict on the example files in EXAMPLE, papers in OUT.
verdict_on_example() {
    local throwbench=$1 example=$2 out=$3
    mkdir -p "$out"
    "$throwbench" verdict "$example/scores.csv" "$example/burns.csv" \
        --candles "$example/candles.csv" --choose 4 --band 3.2-4.4 \
        --report "$out/verdict.pdf" --picture "$out/verdict.png" --table "$out/verdict.csv"
}
