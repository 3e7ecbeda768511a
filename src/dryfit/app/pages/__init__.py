"""The pages: the whole job in a browser on this machine, `dryfit open`."""
