package tracksoak.bench.stream;

import tracksoak.report.verdict.Judge;

/** Lies in the wrong room on purpose, so that a test can see what is said of it. */
public final class Misplaced {

    /** What it uses and this room may not. */
    public static final Class<?> USED = Judge.class;

    private Misplaced() {}
}
