package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The closed forms against the slow way: adding up track by track, and writing file by file. */
class DemandPropertyTest {
    private static final long SEED = 7L;

    @Test
    void addsUpToWhatANaiveLoopFinds() {
        RandomSessions random = new RandomSessions(SEED);
        for (int i = 0; i < 300; i++) {
            Session session = random.next();
            BigInteger total = BigInteger.ZERO;
            for (List<TrackGroup> groups : List.of(session.groups(), session.mix())) {
                for (TrackGroup group : groups) {
                    for (int track = 0; track < group.tracks(); track++) {
                        total = total.add(BigInteger.valueOf(group.sampleRateHz())
                                .multiply(BigInteger.valueOf(group.format().bytesPerSample()))
                                .multiply(BigInteger.valueOf(session.lengthS())));
                    }
                }
            }
            Demand demand = Demand.of(session);
            assertThat(BigInteger.valueOf(demand.dataBytes()))
                    .as("seed %d, session %d", SEED, i)
                    .isEqualTo(total);
            assertThat(demand.readBytesPerSecond() + demand.writtenBytesPerSecond())
                    .isEqualTo(demand.bytesPerSecond());
            assertThat(demand.openFiles())
                    .isEqualTo(session.streams().size() + session.mixStreams().size());
        }
    }

    @Test
    void splitsAsARecorderWouldFrameByFrame() {
        Random random = new Random(SEED);
        for (int i = 0; i < 400; i++) {
            int frame = 1 + random.nextInt(64);
            long limit = (long) FileLimit.HEADER_BYTES + frame + 1 + random.nextInt(4_000);
            long data = (long) frame * random.nextInt(3_000);
            Splits splits = Splits.of(frame, data, new FileLimit(limit));

            long files = 1;
            long inFile = 0;
            long bytes = 0;
            for (long done = 0; done < data; done += frame) {
                if (padded(inFile + frame) > limit) {
                    bytes += padded(inFile);
                    files++;
                    inFile = 0;
                }
                inFile += frame;
            }
            String which = "seed " + SEED + ", case " + i + ": " + splits;
            assertThat(splits.files()).as(which).isEqualTo(files);
            assertThat(splits.lastFileDataBytes()).as(which).isEqualTo(inFile);
            assertThat(splits.fileBytes()).as(which).isEqualTo(bytes + padded(inFile));
        }
    }

    @Test
    void countsRoomAsAddingUpEveryFileWould() {
        Random random = new Random(SEED);
        for (int i = 0; i < 100; i++) {
            TrackGroup group = new TrackGroup(1 + random.nextInt(40), 48_000, SampleFormat.PCM_24);
            FileLayout layout = random.nextBoolean() ? FileLayout.INTERLEAVED : FileLayout.FILE_PER_TRACK;
            long limit = (1L << 20) + random.nextInt(4 << 20);
            Session session = Sessions.of(layout, 1 + random.nextInt(600), limit, List.of(group));
            FileSystemShape shape =
                    FileSystemShape.of(random.nextBoolean() ? "fat32" : "exfat", 512L << random.nextInt(8));
            long clusters = 0;
            long files = 0;
            for (StreamSpec stream : session.streams()) {
                int frame = 3 * stream.tracks();
                long perFile = (limit - 44) / frame * frame;
                perFile -= (perFile & 1) == 1 && perFile + 45 > limit ? frame : 0;
                for (long left = stream.bytesPerSecond() * session.lengthS(); left > 0; left -= perFile) {
                    long size = padded(Math.min(left, perFile));
                    for (long at = 0; at < size; at += shape.clusterBytes()) {
                        clusters++;
                    }
                    files++;
                }
            }
            SessionRoom room = Demand.of(session).roomOn(shape);
            assertThat(room.files()).as("seed %d, case %d", SEED, i).isEqualTo(files);
            assertThat(room.allocatedBytes()).isEqualTo(clusters * shape.clusterBytes());
            assertThat(room.totalBytes()).isEqualTo(room.allocatedBytes() + room.directoryBytes());
            assertThat(room.allocatedBytes() - room.fileBytes()).isBetween(0L, files * (shape.clusterBytes() - 1));
        }
    }

    @Test
    void fillsFreeRoomToTheLastWholeSecond() {
        Random random = new Random(SEED);
        RandomSessions sessions = new RandomSessions(SEED);
        for (int i = 0; i < 200; i++) {
            Demand demand = Demand.of(sessions.next());
            FileSystemShape shape = FileSystemShape.exfat(4096L << random.nextInt(6));
            long freeBytes = Math.floorMod(random.nextLong(), 2_000_000_000_000L);
            long seconds = demand.secondsUntilFull(freeBytes, shape);
            String which = "seed " + SEED + ", case " + i;
            assertThat(demand.roomOn(shape, seconds + 1).totalBytes()).as(which).isGreaterThan(freeBytes);
            assertThat(seconds == 0 || demand.roomOn(shape, seconds).totalBytes() <= freeBytes)
                    .as(which)
                    .isTrue();
            assertThat((double) seconds).isLessThanOrEqualTo((double) freeBytes / demand.bytesPerSecond());
        }
    }

    private static long padded(long data) {
        return 44 + data + data % 2;
    }
}
