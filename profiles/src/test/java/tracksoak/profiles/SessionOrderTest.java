package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Seeded;

/** Which session covers which: the rule spelled out case by case, and the laws of a partial order. */
class SessionOrderTest {

    /** A session to be changed part by part. */
    private static final class Draft {
        SessionKind kind = SessionKind.RECORDING;
        List<TrackGroup> groups = List.of(new TrackGroup(16, 48_000, SampleFormat.PCM_24));
        long lengthS = 7200;
        FileLayout layout = FileLayout.FILE_PER_TRACK;
        int chunk = 65_536;
        Arrival arrival = Arrival.BURST;
        int writers = 1;
        double flushS = 10;
        double bufferS = 2;
        long fileLimit = 2_000_000_000;
        List<String> fileSystems = List.of("exfat", "fat32");
        double buffer = 1.5;
        double rate = 1.5;
        double port = 2;
        double playback = 1.25;
        long stall = 1000;
        long close = 10_000;

        Session make() {
            return Session.builder()
                    .name("any")
                    .title("")
                    .kind(kind)
                    .groups(groups)
                    .lengthS(lengthS)
                    .layout(layout)
                    .chunkBytes(chunk)
                    .arrival(arrival)
                    .writers(writers)
                    .flushS(flushS)
                    .bufferS(bufferS)
                    .bufferAssumed(true)
                    .fileLimitBytes(fileLimit)
                    .fileSystems(fileSystems)
                    .stallLimitMs(250)
                    .margins(new Margins(buffer, rate, port, playback, stall, close))
                    .build();
        }
    }

    private interface Change {
        void on(Draft draft);
    }

    private static final Session BASE = new Draft().make();

    private static Session with(Change change) {
        Draft draft = new Draft();
        change.on(draft);
        return draft.make();
    }

    private static void harder(Change change) {
        Session other = with(change);
        assertThat(SessionOrder.shortOf(other, BASE)).isEmpty();
        assertThat(SessionOrder.covers(BASE, other)).isFalse();
    }

    private static void neither(String respect, Change change) {
        Session other = with(change);
        assertThat(SessionOrder.shortOf(other, BASE)).contains(respect);
        assertThat(SessionOrder.shortOf(BASE, other)).contains(respect);
    }

    private static List<TrackGroup> tracks(int tracks, int hz) {
        return List.of(new TrackGroup(tracks, hz, SampleFormat.PCM_24));
    }

    @Test
    void moreOfTheSameIsHarder() {
        harder(draft -> draft.groups = tracks(17, 48_000));
        harder(draft -> draft.lengthS = 7201);
        harder(draft -> draft.bufferS = 1.5);
        harder(draft -> draft.fileSystems = List.of("exfat"));
        harder(draft -> draft.buffer = 2);
        harder(draft -> draft.rate = 2);
        harder(draft -> draft.port = 3);
        harder(draft -> draft.playback = 2);
        harder(draft -> draft.stall = 500);
        harder(draft -> draft.close = 5_000);
    }

    @Test
    void anotherWayOfWritingIsNeither() {
        neither("the kind of session", draft -> draft.kind = SessionKind.ARCHIVE);
        neither("the layout of files", draft -> draft.layout = FileLayout.INTERLEAVED);
        neither("the piece written at once", draft -> draft.chunk = 131_072);
        neither("the piece written at once", draft -> draft.chunk = 32_768);
        neither("the writes in flight", draft -> draft.writers = 2);
        neither("the time between flushes", draft -> draft.flushS = 5);
        neither("the time between flushes", draft -> draft.flushS = 0);
        neither("when chunks fall due", draft -> draft.arrival = Arrival.STAGGERED);
        neither("the file systems", draft -> draft.fileSystems = List.of("ext4"));
        // backlog is counted in the time of audio, so of two rates neither is the harder one
        neither("the time between chunks", draft -> draft.groups = tracks(16, 96_000));
        neither(
                "the time between chunks",
                draft -> draft.groups = List.of(new TrackGroup(16, 48_000, SampleFormat.PCM_32)));
        neither("the time between chunks", draft -> draft.groups = tracks(8, 96_000));
        // one track makes 1.04 GB in two hours: here it is split, there it is not
        neither("the largest file", draft -> draft.fileLimit = 1_000_000_000);
    }

    @Test
    void aLimitOfFilesThatNoFileMeetsIsNone() {
        Session wide = with(draft -> draft.fileLimit = 1L << 40);
        assertThat(SessionOrder.covers(wide, BASE)).isTrue();
        assertThat(SessionOrder.covers(BASE, wide)).isTrue();
    }

    @Test
    void anyFileSystemIsMoreThanSome() {
        Session any = with(draft -> draft.fileSystems = List.of());
        assertThat(SessionOrder.covers(any, BASE)).isFalse();
        assertThat(SessionOrder.covers(BASE, any)).isFalse();
        assertThat(SessionOrder.covers(any, any)).isTrue();
    }

    /** A drive that sleeps after 5 s without work rests in the session with fewer tracks, and never in the other. */
    @Test
    void fewerTracksWithLongRestsAreNotCovered() {
        Session eight = with(draft -> {
            draft.chunk = 1 << 20;
            draft.bufferS = 20;
            draft.groups = tracks(8, 48_000);
        });
        assertThat(SessionOrder.shortOf(eight.but().groups(tracks(64, 48_000)).build(), eight))
                .containsExactly("how long the drive rests between chunks");
        Session brief = eight.but().chunkBytes(512 << 10).build();
        assertThat(SessionOrder.covers(brief.but().groups(tracks(64, 48_000)).build(), brief))
                .isTrue();
    }

    @Test
    void whatIsHarderInOneAndEasierInAnotherIsNeither() {
        Session more = with(draft -> {
            draft.groups = tracks(32, 48_000);
            draft.bufferS = 4;
        });
        assertThat(SessionOrder.shortOf(more, BASE)).containsExactly("the recorder's buffer");
        assertThat(SessionOrder.shortOf(BASE, more)).containsExactly("the number of tracks");
        Session longer = with(draft -> {
            draft.lengthS = 10_000;
            draft.close = 20_000;
        });
        assertThat(SessionOrder.shortOf(longer, BASE)).containsExactly("the longest close allowed");
        assertThat(SessionOrder.shortOf(BASE, longer)).containsExactly("the length");
    }

    @Test
    void aFailCountsAgainstWhatAsksAsMuch() {
        Session fast = with(draft -> draft.groups = tracks(16, 96_000));
        assertThat(SessionOrder.asksAsMuch(fast, BASE)).isTrue();
        assertThat(SessionOrder.asksAsMuch(BASE, fast)).isFalse();
        assertThat(SessionOrder.asksAsMuch(with(draft -> draft.stall = 500), BASE))
                .isTrue();
        assertThat(SessionOrder.asksAsMuch(with(draft -> draft.bufferS = 4), BASE))
                .isFalse();
        assertThat(SessionOrder.asksAsMuch(BASE, BASE)).isTrue();
    }

    @Test
    void mixedRatesAreComparedStreamByStream() {
        Session mixed = with(draft -> draft.groups = List.of(
                new TrackGroup(2, 96_000, SampleFormat.PCM_24), new TrackGroup(16, 44_100, SampleFormat.PCM_24)));
        assertThat(SessionOrder.covers(mixed, BASE)).isFalse();
        assertThat(SessionOrder.covers(mixed, with(draft -> draft.groups = tracks(16, 44_100))))
                .isTrue();
        assertThat(SessionOrder.shortOf(mixed, with(draft -> draft.groups = tracks(18, 44_100))))
                .containsExactly("the number of tracks");
    }

    @Test
    void headersSpaceAndRiskPlayTheirPart() {
        assertThat(SessionOrder.shortOf(BASE, BASE.but().headerS(5).build()))
                .containsExactly("the time between headers");
        assertThat(SessionOrder.shortOf(
                        BASE, BASE.but().spaceInAdvanceBytes(1 << 20).build()))
                .containsExactly("the space given in advance");
        Session careful = BASE.but().risk(0.001).build();
        assertThat(SessionOrder.shortOf(BASE, careful)).containsExactly("the risk accepted");
        assertThat(SessionOrder.covers(careful, BASE)).isTrue();
    }

    @Test
    void namesAndAssumptionsPlayNoPart() {
        Session base = BASE;
        Session named = base.but()
                .name("other")
                .title("Other")
                .about("about")
                .bufferAssumed(false)
                .fileSystems(List.of("fat32", "exfat"))
                .validDays(30)
                .build();
        assertThat(SessionOrder.covers(named, base)).isTrue();
        assertThat(SessionOrder.covers(base, named)).isTrue();
    }

    @Test
    void theShippedSessionsAreInTheOrderTheTradeExpects() {
        SessionCatalog shipped = SessionCatalog.shipped();
        assertThat(SessionOrder.covers(shipped.find("festival-64"), shipped.find("band-32")))
                .isTrue();
        assertThat(SessionOrder.covers(shipped.find("band-32"), shipped.find("festival-64")))
                .isFalse();
        assertThat(SessionOrder.shortOf(shipped.find("hires-32"), shipped.find("band-32")))
                .containsExactly("the time between chunks", "the longest stall allowed");
        assertThat(SessionOrder.covers(shipped.find("one-file-32"), shipped.find("band-32")))
                .isFalse();
        for (Session session : shipped.all()) {
            assertThat(SessionOrder.covers(session, session)).isTrue();
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13})
    void itIsAPartialOrder(long seed) {
        Random random = Seeded.random(seed);
        List<Session> sessions = new ArrayList<>();
        for (int i = 0; i < 60; i++) {
            sessions.add(with(draft -> {
                draft.groups = tracks(8 + 8 * random.nextInt(2), random.nextBoolean() ? 48_000 : 96_000);
                draft.bufferS = 1 + random.nextInt(2);
                draft.fileLimit = random.nextBoolean() ? 2_000_000_000 : 1L << 40;
                draft.fileSystems = random.nextBoolean() ? List.of("exfat") : List.of("exfat", "fat32");
                draft.stall = random.nextBoolean() ? 500 : 1000;
                draft.arrival = random.nextInt(4) == 0 ? Arrival.STAGGERED : Arrival.BURST;
            }));
        }
        int pairs = 0;
        for (Session a : sessions) {
            assertThat(SessionOrder.covers(a, a)).isTrue();
            for (Session b : sessions) {
                boolean ab = SessionOrder.covers(a, b);
                pairs += ab ? 1 : 0;
                if (ab && SessionOrder.covers(b, a)) {
                    // but for a limit that no file of either meets
                    assertThat(a.but().fileLimitBytes(b.fileLimitBytes()).build())
                            .isEqualTo(b);
                }
                for (Session c : sessions) {
                    if (ab && SessionOrder.covers(b, c)) {
                        assertThat(SessionOrder.covers(a, c)).isTrue();
                    }
                }
            }
        }
        assertThat(pairs).isBetween(100, 3_000);
    }
}
