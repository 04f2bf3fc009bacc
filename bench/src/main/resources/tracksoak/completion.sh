
# Words with their meanings, asked of tracksoak itself while somebody types: sessions, drives, simulated drives.
_tracksoak_kind() {
  case $1 in
    --session | -s | --tonight) echo sessions ;;
    --simulated) echo simulated ;;
    qualify | requalify | climb | drill | drives | clear) echo drives ;;
  esac
}

_tracksoak_meanings() {
  local word=${COMP_WORDS[COMP_CWORD]} kind line lines=()
  kind=$(_tracksoak_kind "${COMP_WORDS[COMP_CWORD - 1]}")
  if [ -z "$kind" ] || [ "${word#-}" != "$word" ]; then
    _complete_tracksoak "$@"
    return
  fi
  while IFS= read -r line; do
    case $line in "$word"*) lines+=("$line") ;; esac
  done < <(tracksoak completion --words "$kind" 2>/dev/null)
  COMPREPLY=()
  if [ "$kind" = drives ]; then
    while IFS= read -r line; do COMPREPLY+=("$line"); done < <(compgen -d -- "$word")
  fi
  if [ "${#lines[@]}" -eq 1 ]; then
    COMPREPLY+=("${lines[0]%%$'\t'*}")
  else
    for line in "${lines[@]}"; do COMPREPLY+=("$(printf '%-20s (%s)' "${line%%$'\t'*}" "${line#*$'\t'}")"); done
  fi
}

if [ -n "${ZSH_VERSION-}" ]; then
  _tracksoak_zsh() {
    local kind line
    local -a words_found
    kind=$(_tracksoak_kind "${words[CURRENT - 1]}")
    if [ -z "$kind" ] || [ "${words[CURRENT]#-}" != "${words[CURRENT]}" ]; then
      _bash_complete -o default -F _complete_tracksoak
      return
    fi
    tracksoak completion --words "$kind" 2>/dev/null | while IFS= read -r line; do
      words_found+=("${${line%%$'\t'*}//:/\\:}:${line#*$'\t'}")
    done
    _describe "$kind" words_found
    if [ "$kind" = drives ]; then _files -/; fi
  }
  compdef _tracksoak_zsh tracksoak
else
  complete -F _tracksoak_meanings -o default tracksoak
fi
