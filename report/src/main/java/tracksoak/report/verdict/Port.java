package tracksoak.report.verdict;

import java.util.Locale;
import tracksoak.profiles.Demand;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.DriveFacts;

/** The link must be faster than the demand by the margin asked. */
public final class Port implements Rule {

    /** 13 packets of 512 B in each of 8,000 microframes: USB 2.0 specification, table 5-10. */
    private static final double USB_480_BYTES = 13 * 512 * 8_000.0;

    private static final String BY_HAND = " Check by hand that the drive is on a fast port.";

    @Override
    public Finding judge(JudgedRun run) {
        double need = run.session.margins().port();
        FindingDraft draft =
                new FindingDraft(CriterionId.PORT, "link at least " + Units.factor(need) + " the demand", need, "×");
        DriveFacts drive = run.record.drive();
        Double mbps = drive.linkMbps();
        if (mbps == null || mbps <= 0) {
            return draft.note("The link speed of the port is not known." + BY_HAND)
                    .untested("Not tested: the link speed is not known." + BY_HAND);
        }
        String speed = String.format(Locale.ROOT, "%.0f Mbit/s", mbps);
        if (drive.linkSuspect()) {
            return draft.note("The link speed reads " + speed + ", which the system also prints when it does not know."
                            + BY_HAND)
                    .untested("Not tested: the link speed reads " + speed + ", which may mean unknown." + BY_HAND);
        }
        double have = usable(mbps) / run.bytesPerSecond();
        draft.measured(Units.factor(have) + " (" + speed + ")", Math.min(have, 1000))
                .margin(have);
        String fact = "The port runs at " + speed + ", " + Units.factor(have) + " what the session moves";
        return have >= need
                ? draft.met(fact + ".")
                : draft.missed(fact + ", and " + Units.factor(need) + " is needed: use a faster port.");
    }

    /**
     * Part of a link that a session claims while it runs beside others, its demand times the margins it asks of rate and port; above 1
     * if the link is too slow for it even alone.
     */
    public static double share(Session session, double mbps) {
        return Demand.of(session).bytesPerSecond()
                * session.margins().rate()
                * session.margins().port()
                / usable(mbps);
    }

    /**
     * Bytes per second a link can carry at most. Up to 480 Mb/s in the proportion of USB's bulk transfers; above that 8 bits
     * in 10 (8b/10b line code at 5 Gb/s; the newer code costs less, so this is on the safe side).
     */
    static double usable(double mbps) {
        return mbps <= 480 ? mbps / 480 * USB_480_BYTES : mbps * 1e6 / 10;
    }
}
