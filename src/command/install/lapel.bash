# Completion of lapel's command line for bash.
_lapel()
{
	local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}
	local commands options
	COMPREPLY=()
	if [ "$COMP_CWORD" -eq 1 ]; then
		# The program's own list: two blanks, a command, and what it does.
		commands=$("$1" --help 2>/dev/null | sed -n '/^Commands:/,/^$/s/^  \([a-z]*\) .*/\1/p')
		mapfile -t COMPREPLY < <(compgen -W "$commands --help --version" -- "$word")
		return
	fi
	case $before in
	--db | --sound | --presses | --spoken | --settings | --to | --grammar | --words)
		mapfile -t COMPREPLY < <(compgen -f -- "$word")
		return
		;;
	--listen)
		mapfile -t COMPREPLY < <(compgen -W "127.0.0.1 ::1" -- "$word")
		return
		;;
	--voice)
		mapfile -t COMPREPLY < <(compgen -W "slt rms awb kal16 kal" -- "$word")
		return
		;;
	--headset)
		# What the list names, one to a line.
		mapfile -t COMPREPLY < <("$1" soundcheck --list 2>/dev/null | sed -n 's/: .*//p' |
			grep -i -F -- "$word" | sed 's/ /\\ /g')
		return
		;;
	--as)
		mapfile -t COMPREPLY < <(compgen -W "csv jsonld text" -- "$word")
		return
		;;
	--in)
		mapfile -t COMPREPLY < <(compgen -W "item paused" -- "$word")
		return
		;;
	esac
	if [ "${word#-}" != "$word" ]; then
		options=$("$1" "${COMP_WORDS[1]}" --help 2>/dev/null |
			sed -n 's/^  \(--[a-z-]*\).*/\1/p')
		mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
	else
		mapfile -t COMPREPLY < <(compgen -f -- "$word")
	fi
}
complete -o filenames -F _lapel lapel
