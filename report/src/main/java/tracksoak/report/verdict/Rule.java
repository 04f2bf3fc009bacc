package tracksoak.report.verdict;

/** One criterion: a pure function of the facts of a run. */
@FunctionalInterface
interface Rule {
    Finding judge(JudgedRun run);
}
