### What is told while a lesson is watched.

## rebuilding

build-impossible = the lesson can't be built: { $why }; save it to try again
build-stopped = the build was stopped; save the lesson to try again
build-unanswered = the build ended without an answer ({ $how }); it may have asked for more memory than there is: mend or undo the last change, and save
exit-code = exit code { $code }
