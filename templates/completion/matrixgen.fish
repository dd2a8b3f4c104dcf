# Completes a command line of matrixgen in fish: matrixgen itself says what may come next.
complete -c matrixgen -f -k -a '(matrixgen completion fish -- (commandline -opc) (commandline -ct))'
