"""Floor 1, crafts: what a quilter knows of each patch form and each way of making units, one file each."""
