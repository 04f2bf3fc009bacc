package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * A mixdown against brute force, for made-up drives and sessions: N tracks read and one to three written, on one timeline.
 * Both play the same drive (same seed); silence, underruns, lost audio, backlog, stalls and every service and response
 * time, of reads and of writes, are worked out twice and must agree exactly.
 */
class MixdownOracleTest {

    private static final long FIRST_SEED = 60_260_000L;

    /** 200 seeds in each build, 20,000 others at night. */
    @Test
    void mixdownAgreesWithBruteForce() throws IOException {
        compare(FIRST_SEED, 200);
    }

    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void mixdownAgreesWithBruteForceAllNight() throws IOException {
        compare(FIRST_SEED + 1_000_000, 20_000);
    }

    private static void compare(long firstSeed, int count) throws IOException {
        int silent = 0;
        int lossy = 0;
        int stalled = 0;
        for (long seed = firstSeed; seed < firstSeed + count; seed++) {
            Trial trial = Trial.mixdown(seed);
            PlayerRun drive = new PlayerRun(trial.session(), trial.drive(), trial.seconds()).opened();
            BrutePlayer reads = new BrutePlayer(trial.session(), trial.seconds());
            BruteQueue writes = BruteQueue.mix(trial.session(), trial.seconds());
            play(reads, writes, drive, Math.round(trial.seconds() * 1e9));
            PlayerRun.Played played = new PlayerRun(trial.session(), trial.drive(), trial.seconds()).play();
            String told = "seed " + seed + ": ";
            Same.books(told + "reads, ", trial.session(), reads, played.player());
            Same.books(told + "mix, ", writes, Objects.requireNonNull(played.mix()));
            assertThat(played.drainedNs())
                    .as(told + "until the mix was written")
                    .isEqualTo(writes.now);
            silent += reads.underruns() == 0 ? 0 : 1;
            lossy += writes.losses.isEmpty() ? 0 : 1;
            stalled += reads.stalls.isEmpty() ? 0 : 1;
        }
        System.out.printf(
                Locale.ROOT,
                "mixdowns: seeds %d to %d, %d fell silent, %d lost audio of the mix, %d stalled%n",
                firstSeed,
                firstSeed + count - 1,
                silent,
                lossy,
                stalled);
        assertThat(silent).as("trials that fell silent").isBetween(count / 10, count * 9 / 10);
        assertThat(lossy).as("trials that lost audio of the mix").isBetween(count / 50, count * 9 / 10);
        assertThat(stalled).as("trials with a stall").isBetween(count / 10, count * 9 / 10);
    }

    /** One read and one write in turn where both wait, on one timeline; then what is left of the mix. */
    private static void play(BrutePlayer reads, BruteQueue writes, PlayerRun drive, long length) throws IOException {
        while (reads.now < length) {
            boolean did = reads.readOne(drive);
            writes.now = reads.now;
            did |= writes.writeOne(drive);
            if (!did) {
                long next = Math.min(length, Math.min(reads.nextDue(), writes.earliestReady()));
                drive.pause(next - writes.now);
                writes.now = next;
            }
            reads.now = writes.now;
        }
        reads.settle();
        writes.settle();
        writes.close(drive);
    }
}
