document.getElementById("worktable")!.textContent = "…";
