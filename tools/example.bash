# The one call that the pages and the wheel check share.
# shellcheck shell=bash

# verdict_on_example THROWBENCH EXAMPLE OUT: the verdict on the files in EXAMPLE; papers go to OUT.
# The example carries its own day, so that its verdict stays the same.
verdict_on_example() {
    local throwbench=$1 example=$2 out=$3
    mkdir -p "$out"
    "$throwbench" verdict "$example/scores.csv" "$example/burns.csv" \
        --candles "$example/candles.csv" --one-of "$example/one-of.csv" \
        --choose 4 --band 3.2-4.4 --day 2027-05-24 \
        --workshop "Saltmyr Lysstøperi" --trial "Long Light" --invented \
        --report "$out/verdict.pdf" --picture "$out/verdict.png" --table "$out/verdict.csv"
}
