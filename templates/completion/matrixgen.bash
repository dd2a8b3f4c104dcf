# Completes a command line of matrixgen in bash: matrixgen itself says what may come next.
_matrixgen() {
    local word
    COMPREPLY=()
    while IFS= read -r word; do
        [ -n "$word" ] && COMPREPLY+=("$word")
    done < <(matrixgen completion bash -- "${COMP_WORDS[@]:0:COMP_CWORD+1}" 2>/dev/null)
    case ${COMPREPLY[0]-} in
        */) compopt -o nospace -o filenames 2>/dev/null ;;
        *.*) compopt -o filenames 2>/dev/null ;;
    esac
}
complete -F _matrixgen matrixgen
