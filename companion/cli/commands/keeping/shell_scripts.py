"""What each shell needs to ask `tallycord completion` for candidates: it is told what is typed, one word after another.

The words go through the environment, so that none of them is taken for an option.
"""

from __future__ import annotations

BETWEEN_WORDS = "\x1f"  # a character that nobody types
TYPED = "TALLYCORD_TYPED"

BASH = r"""_tallycord() {
    local typed line
    COMPREPLY=()
    typed=$(printf '%s\037' "${COMP_WORDS[@]:1:COMP_CWORD}")
    while IFS= read -r line; do
        [[ $line == */ ]] && compopt -o nospace
        [[ ${COMP_WORDS[COMP_CWORD]} == [\'\"]* ]] || line=$(printf '%q' "$line")
        COMPREPLY+=("$line")
    done < <(TALLYCORD_TYPED=$typed "${COMP_WORDS[0]}" completion --candidates 2>/dev/null)
}
complete -F _tallycord tallycord"""

ZSH = r"""_tallycord() {
    local typed
    local -a found
    typed=$(printf '%s\037' "${words[@]:1:CURRENT-1}")
    found=("${(@f)$(TALLYCORD_TYPED=$typed "${words[1]}" completion --candidates 2>/dev/null)}")
    compadd -U -- ${found:#}
}
(( $+functions[compdef] )) || { autoload -Uz compinit && compinit }
compdef _tallycord tallycord"""

FISH = r"""function __tallycord_candidates
    set -l words (commandline -opc)[2..-1] (commandline -ct)
    set -lx TALLYCORD_TYPED (printf '%s\x1f' $words)
    tallycord completion --candidates 2>/dev/null
end
complete -c tallycord -f -a '(__tallycord_candidates)'"""

SCRIPTS = {"bash": BASH, "zsh": ZSH, "fish": FISH}
