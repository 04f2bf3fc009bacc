package tracksoak.report.verdict;

/** One criterion: a pure function of the evidence. */
@FunctionalInterface
interface Rule {
    Finding judge(Evidence evidence);
}
