package tracksoak.bench.command.demo;

import picocli.CommandLine.Option;

/** A demo of the roster instead of single runs. */
final class DemoRosterOptions {

    static final long USUAL_SEED = 20;

    @Option(
            names = "--roster",
            description =
                    "Fill a new roster with the theatre's drives instead, from simulated runs, and open its page; writes no "
                            + "drive.")
    boolean asked;

    @Option(
            names = "--seed",
            paramLabel = "N",
            description =
                    "With --roster: what is left to chance in the simulated drives. Without it: " + USUAL_SEED + ".")
    long seed = USUAL_SEED;

    @Option(names = "--no-browser", description = "With --roster: serve its page, but open no browser.")
    boolean noBrowser;
}
