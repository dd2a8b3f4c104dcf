# Sourced by tests/run: where the files are that live for a test.
# On a disk, making and removing them takes a tenth of a run's processor time.

# Whether files can be written in a folder and run from there, with room for all of them at once.
takes_programs() {
    [ "$(df -Pk "$1" 2>/dev/null | awk 'NR == 2 { print $4 }')" -gt 2000000 ] 2>/dev/null || return 1
    tried=$(mktemp "$1/matrixgen-XXXXXX" 2>/dev/null) || return 1
    printf '#!/bin/sh\n' >"$tried" && chmod +x "$tried" && "$tried" 2>/dev/null
    taken=$?
    rm -f "$tried"
    return $taken
}

in_memory=
if [ -z "${TMPDIR-}" ] && takes_programs /dev/shm; then
    in_memory=$(mktemp -d /dev/shm/matrixgen-tests-XXXXXX)
    export TMPDIR="$in_memory"
fi

# Remove them, unless a test has failed ($1 is the run's status): then somebody wants to see its files.
put_away() {
    if [ -n "$in_memory" ] && [ "$1" = 0 ]; then
        rm -rf "$in_memory"
    elif [ -n "$in_memory" ]; then
        echo "the tests' files are left in $in_memory"
    fi
}
