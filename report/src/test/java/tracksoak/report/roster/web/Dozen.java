package tracksoak.report.roster.web;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import tracksoak.profiles.Session;
import tracksoak.report.record.RunSketch;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.identity.DriveIdentity;

/** A served roster with the dozen drives of an invented theatre, of every standing. */
public final class Dozen {

    static final Session BARN = RunSketch.session("barn-32", 32);
    static final Session TRIO = RunSketch.session("trio-8", 8);

    /** What each is worth for the session of its latest run. */
    static final List<String> READY = List.of("S-001", "S-002", "S-003", "S-007", "S-008", "S-012");

    private final Served served;

    private Dozen(Served served) {
        this.served = served;
    }

    public static void fill(Served served) {
        new Dozen(served).fill();
    }

    private void fill() {
        // the whole show once, and sound-checks since
        enter(Shows.fullShow("B4RN-0001", daysAgo(80)).hardware("Barley & Sons", "Wagon 128"), "S-001");
        for (int daysAgo : new int[] {52, 31, 3}) {
            enter(stick(1, daysAgo), "S-001");
        }
        enter(stick(2, 20), "S-002");
        enter(disk(3, 12).session(TRIO), "S-003");
        enter(stick(4, 130), "S-004");
        enter(disk(5, 118), "S-005");
        enter(stick(6, 40), "S-006");
        Shows lost = Shows.fail("B4RN-0006", daysAgo(9));
        enter(lost.hardware("Barley & Sons", "Wagon 128"), "S-006");
        enter(stick(7, 9).session(TRIO), "S-007");
        enter(disk(8, 33), "S-008");
        served.desk.note("S-008", "slow to wake up; give it a minute");
        enter(stick(9, 47), "S-009");
        served.desk.withdraw("S-009", "plug is loose since the load-out in the rain");
        enter(Shows.lineCheck("B4RN-0010", daysAgo(2)).hardware("Barley & Sons", "Wagon 128"), "S-010");
        served.desk.tag(DriveIdentity.of(disk(11, 0).record().drive()), "S-011", "new, out of its box");
        enter(stick(12, 5), "S-012");
        served.desk.tag("S-012", "S-112", "somebody wrote this on its other side");
    }

    private void enter(Shows show, String tag) {
        served.desk.enter(show.signed(served.key), tag);
    }

    public static Shows stick(int number, int daysAgo) {
        return Shows.pass("B4RN-%04d".formatted(number), daysAgo(daysAgo)).hardware("Barley & Sons", "Wagon 128");
    }

    private static Shows disk(int number, int daysAgo) {
        return Shows.pass("B4RN-%04d".formatted(number), daysAgo(daysAgo))
                .hardware("Quarry Works", "Portable Solid State Mark II");
    }

    private static Instant daysAgo(int days) {
        return Shows.START.minus(Duration.ofDays(days));
    }
}
