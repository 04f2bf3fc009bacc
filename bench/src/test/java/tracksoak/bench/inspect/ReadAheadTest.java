package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.recording.FileBytes;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.UnreadableWave;
import tracksoak.bench.recording.WaveHeaderReader;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.facts.inspection.FindingKind;

/** Files so long that they are read in a thread while they are looked at. */
class ReadAheadTest {

    private static final int SAMPLES = 3_000_000;
    private static final int BLOCK = 3 * 8 * 4096;

    private final InventedRecording recording = new InventedRecording(1, 48_000, 3, false, SAMPLES);
    private final byte[] audio = new byte[3 * SAMPLES];
    private final ByteBuffer room = ByteBuffer.allocateDirect(ReadAhead.ROOM);

    private RecordedFile recorded(RecordedFile.Source source) throws IOException, UnreadableWave {
        byte[] file = recording.file("TR01.wav");
        return new RecordedFile("TR01.wav", WaveHeaderReader.read(new InventedRecording.InMemory(file)), source);
    }

    ReadAheadTest() {
        Seeded.random(1).nextBytes(audio);
        recording.put("TR01.wav", audio);
    }

    /** Bytes of the recording, of which each read gives no more than it may. */
    private final class Watched implements FileBytes {

        private final FileBytes all = new InventedRecording.InMemory(recording.file("TR01.wav"));
        private final Look look;

        Watched(Look look) {
            this.look = look;
        }

        @Override
        public long sizeBytes() throws IOException {
            return all.sizeBytes();
        }

        @Override
        public int read(ByteBuffer target, long offset) throws IOException {
            int limit = target.limit();
            target.limit((int) Math.min(limit, target.position() + look.most(offset)));
            try {
                return all.read(target, offset);
            } finally {
                target.limit(limit);
            }
        }

        @Override
        public void close() throws IOException {
            all.close();
        }
    }

    @FunctionalInterface
    private interface Look {
        long most(long offset) throws IOException;
    }

    private byte[] read(RecordedFile.Source source, BooleanSupplier stop) throws IOException, UnreadableWave {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        try (ReadAhead ahead = new ReadAhead(recorded(source), room, BLOCK, stop)) {
            for (ByteBuffer next = ahead.next(BLOCK); next != null; next = ahead.next(BLOCK)) {
                byte[] bytes = new byte[next.remaining()];
                next.get(bytes);
                all.write(bytes);
            }
        }
        return all.toByteArray();
    }

    @Test
    void everyByteOfTheSamplesComesOnceAndInOrder() throws Exception {
        assertThat(read(() -> new Watched(offset -> Integer.MAX_VALUE), () -> false))
                .isEqualTo(audio);
    }

    /** Some file systems give less than they are asked for. */
    @Test
    void readsThatGiveLittleAreGoneOnWith() throws Exception {
        RecordedFile.Source little = () -> new Watched(offset -> 100_001);

        assertThat(read(little, () -> false)).isEqualTo(audio);
    }

    @Test
    void whatLiesBeforeARefusalIsGiven() throws Exception {
        int bad = 5_000_000;
        RecordedFile.Source refusing = () -> new Watched(offset -> {
            if (offset >= bad) {
                throw new IOException("Input/output error");
            }
            return bad - offset;
        });

        assertThat(read(refusing, () -> false)).isEqualTo(Arrays.copyOf(audio, bad - 44));
    }

    @Test
    void aDriveThatHangsDoesNotKeepAnInspectionFromBeingEnded() throws Exception {
        CountDownLatch never = new CountDownLatch(1);
        CountDownLatch hangs = new CountDownLatch(1);
        RecordedFile.Source hanging = () -> new Watched(offset -> {
            hangs.countDown();
            try {
                never.await();
            } catch (InterruptedException asked) {
                Thread.currentThread().interrupt();
            }
            return 0;
        });

        assertThat(read(hanging, () -> hangs.getCount() == 0)).isEmpty();

        never.countDown();
    }

    @ParameterizedTest
    @ValueSource(ints = {100_000, 4_000_000, 8_990_000})
    void ofALongFileOnlyTheBlockThatCannotBeReadIsToldAsMissing(int bad) throws Exception {
        RecordedFile.Source refusing = () -> new Watched(offset -> {
            if (offset >= bad && offset < bad + 4096) {
                throw new IOException("Input/output error");
            }
            return offset < bad ? bad - offset : Integer.MAX_VALUE;
        });
        // a piece that is there twice lies behind it
        int twice = 3 * 2_900_000;
        Inspection inspection = new Inspection(
                new Recordings(List.of(recorded(refusing)), List.of(), 0, null, false, "", ""),
                (done, all) -> {},
                () -> false);
        System.arraycopy(audio, twice - 8192 * 3, audio, twice, 8192 * 3);
        recording.put("TR01.wav", audio);
        inspection.run();

        assertThat(inspection.findings())
                .extracting("kind")
                .containsExactlyInAnyOrder(FindingKind.UNREADABLE, FindingKind.REPEATED_BLOCK);
        assertThat(inspection.findings())
                .filteredOn(one -> one.kind() == FindingKind.UNREADABLE)
                .singleElement()
                .satisfies(one -> {
                    assertThat(one.atSample()).isBetween((bad - 44) / 3 - 1500L, (bad - 44) / 3 + 1L);
                    assertThat(one.samples()).isBetween(4096 / 3.0, 3 * 4096 / 3.0);
                });
        assertThat(inspection.bytesRead()).isBetween(3L * SAMPLES - 12_288, 3L * SAMPLES);
    }
}
