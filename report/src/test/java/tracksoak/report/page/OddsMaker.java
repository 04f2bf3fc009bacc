package tracksoak.report.page;

import java.util.List;
import java.util.stream.IntStream;
import tracksoak.report.record.facts.Odds;

/** Odds as a take of an hour with 52 peaks would give them, for pages to show. Tests only. */
final class OddsMaker {

    private OddsMaker() {}

    /** A chance of 1 in 400. */
    static Odds oneInFourHundred() {
        return new Odds(
                "The chance that a show of 3 h meets a wait longer than the buffer of 2 s is about 1 in 400 (95 %: 1 in 90"
                        + " to 1 in 3,000), if the drive goes on as in the take. Simply counting: no wait was longer than the"
                        + " buffer in 65 min, which rules out nothing for a show of this length.",
                List.of(),
                10_800,
                2_000,
                3_900,
                0,
                0.9998,
                new Odds.Fit(
                        470.5,
                        3_600,
                        2,
                        52,
                        52,
                        0.04,
                        131.5,
                        0.41,
                        0.83,
                        0.0025,
                        0.000333,
                        0.0112,
                        IntStream.range(0, 30)
                                .mapToObj(i -> {
                                    double every = 138 * Math.pow(1.22, i);
                                    double ms = Math.rint(470 + 30 * i + 0.4 * i * i);
                                    return new Odds.Level(
                                            Math.rint(every), ms, Math.rint(ms - 2 * i), Math.rint(ms + 3 * i * i));
                                })
                                .toList(),
                        IntStream.range(0, 52)
                                .mapToObj(i -> new Odds.Seen(Math.rint(3_600 / (i + 0.5)), 980 - 9.5 * i))
                                .toList()));
    }

    /** Nothing could be worked out. */
    static Odds none() {
        String why = "There were too few delays: 18 that stand out, and 40 are needed. A longer take has more.";
        return new Odds(
                "The test cannot say how likely a dropout is. " + why
                        + " Simply counting: 3 waits were longer than the buffer in 15 min, which rules out nothing for a"
                        + " show of this length.",
                List.of(why),
                10_800,
                2_000,
                900,
                3,
                1,
                null);
    }
}
