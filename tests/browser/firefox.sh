#!/bin/sh
# Start Firefox, and say that it listens where $RELAY does; the path has Firefox's own port.
firefox-esr "$@" 2>&1 | sed -u "s#listening on ws://[^/]*:#listening on $RELAY/#"
