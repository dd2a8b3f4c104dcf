#compdef matrixgen
# Completes a command line of matrixgen in zsh: matrixgen itself says what may come next.
_matrixgen() {
    local -a found
    found=("${(@f)$(matrixgen completion zsh -- "${(@)words[1,CURRENT]}" 2>/dev/null)}")
    found=(${found:#})
    local -a folders others
    folders=(${(M)found:#*/}) others=(${found:#*/})
    compadd -V matrixgen -- $others
    compadd -S '' -- $folders
}
(( $+functions[compdef] )) || { autoload -U compinit && compinit }
compdef _matrixgen matrixgen
