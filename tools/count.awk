# Counts of a runner's output: "N passed, N failed" lines, the summaries of GoogleTest, CTest, node and unittest.
/^[0-9]+ passed, [0-9]+ failed$/ { passed += $1; failed += $3 }
/^\[  PASSED  \] [0-9]+ tests?\./ { passed += $4 }
/^\[  FAILED  \] [0-9]+ tests?, listed below/ { failed += $4 }
/^[0-9]+% tests passed, [0-9]+ tests failed out of [0-9]+$/ { passed += $NF - $4; failed += $4 }
/^# pass [0-9]+$/ { passed += $3 }
/^# fail [0-9]+$/ { failed += $3 }
/^Ran [0-9]+ tests? in / { ran = $2 }
/^OK$/ { passed += ran; ran = 0 }
/^FAILED \(/ { split($0, part, /[^0-9]+/); bad = part[2] + part[3]; failed += bad; passed += ran - bad; ran = 0 }
END { print passed + 0, failed + 0 }
