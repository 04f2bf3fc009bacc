package tracksoak.bench.inspect;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import tracksoak.bench.recording.FileBytes;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.Samples;
import tracksoak.bench.recording.UnreadableWave;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.bench.recording.WaveHead;
import tracksoak.bench.recording.WaveHeaderReader;
import tracksoak.bench.timecode.TestSignal;
import tracksoak.profiles.base.Seeded;

/** A recording in memory, to be damaged and inspected. Whatever it holds follows from its seed. */
final class InventedRecording {

    final Random random;
    final WaveFormat mono;
    final int samples;
    final Map<String, byte[]> files = new LinkedHashMap<>();
    /** Files that this user may not read. */
    final Set<String> notAllowed = new HashSet<>();

    InventedRecording(long seed, int rate, int bytes, boolean isFloat, int samples) {
        random = Seeded.random(seed);
        mono = new WaveFormat(1, rate, isFloat, bytes, 8 * bytes);
        this.samples = samples;
    }

    /** Tracks that each carry the test signal from a place on. */
    static InventedRecording ofSignal(long seed, int rate, int bytes, int tracks, double seconds) {
        InventedRecording recording = new InventedRecording(seed, rate, bytes, false, (int) (seconds * rate));
        float[] signal = new float[recording.samples];
        new TestSignal(rate).fill(recording.random.nextInt(60 * rate), signal, signal.length);
        byte[] data = recording.stored(signal);
        for (int track = 1; track <= tracks; track++) {
            recording.put(name(track), data.clone());
        }
        return recording;
    }

    /** Tracks of a show of all kinds. */
    static InventedRecording ofMusic(long seed, int rate, int bytes, boolean isFloat, int tracks, double seconds) {
        InventedRecording recording = new InventedRecording(seed, rate, bytes, isFloat, (int) (seconds * rate));
        for (int track = 1; track <= tracks; track++) {
            recording.put(name(track), recording.stored(recording.music(recording.random.nextInt(10))));
        }
        return recording;
    }

    static String name(int track) {
        return String.format(Locale.ROOT, "take/TR%02d.wav", track);
    }

    byte[] stored(float[] values) {
        ByteBuffer bytes =
                ByteBuffer.allocate(values.length * mono.bytesPerSample()).order(ByteOrder.LITTLE_ENDIAN);
        Samples.store(values, values.length, mono, bytes);
        return bytes.array();
    }

    /** Puts a file with a header that fits. */
    void put(String path, byte[] data) {
        put(path, mono, data);
    }

    void put(String path, WaveFormat format, byte[] data) {
        byte[] head = WaveHead.of(format, data.length);
        byte[] file = Arrays.copyOf(head, head.length + data.length + (data.length & 1));
        System.arraycopy(data, 0, file, head.length, data.length);
        files.put(path, file);
    }

    /** A file that is there. */
    byte[] file(String path) {
        return Objects.requireNonNull(files.get(path));
    }

    /** The samples of a file as they are stored. */
    byte[] data(String path) {
        byte[] file = file(path);
        int head = WaveHead.of(mono, 0).length;
        int length = ByteBuffer.wrap(file).order(ByteOrder.LITTLE_ENDIAN).getInt(head - 4);
        return Arrays.copyOfRange(file, head, head + length);
    }

    /** What a channel of a show may hold: everything a recorder gets from microphones, players and mutes. */
    float[] music(int kind) {
        float[] values = new float[samples];
        int rate = mono.sampleRateHz();
        switch (kind) {
            case 0 -> tones(values, 0, samples, 0.2, 1e-4);
            case 1 -> {
                // a gate: notes with exact silence between them, cut off hard, anywhere
                for (int at = 0; at < samples; ) {
                    int note = rate / 10 + random.nextInt(rate / 2);
                    tones(values, at, Math.min(samples, at + note), 0.3, 1e-4);
                    at += note + rate / 5 + random.nextInt(rate);
                }
            }
            case 2 -> {
                // a pause at whole beats
                tones(values, 0, samples, 0.2, 1e-4);
                int beat = rate / 2;
                int from = beat * (1 + random.nextInt(Math.max(1, samples / beat)));
                Arrays.fill(values, Math.min(samples, from), Math.min(samples, from + 2 * beat), 0);
            }
            case 3 -> {
                // a fade to nothing and back
                tones(values, 0, samples, 0.3, 1e-5);
                int middle = samples / 2;
                for (int i = 0; i < samples; i++) {
                    double away = Math.max(0, Math.abs(i - middle) - rate * 0.1) / (rate * 0.4);
                    values[i] *= (float) Math.min(1, away * away);
                }
            }
            case 4 -> Arrays.fill(values, 0);
            case 5 -> {
                // a tone from a generator, exactly periodic
                double hz = new double[] {440, 997, 1000, 46.875, 50, 23.4375}[random.nextInt(6)];
                for (int i = 0; i < samples; i++) {
                    values[i] = (float) (0.25 * Math.sin(2 * Math.PI * hz * i / rate));
                }
            }
            case 6 -> {
                // a click track: the same sample again and again, silence between
                float[] click = new float[rate / 50];
                tones(click, 0, click.length, 0.5, 1e-3);
                int every = rate * 60 / (60 + random.nextInt(120));
                for (int at = 0; at + click.length < samples; at += every) {
                    System.arraycopy(click, 0, values, at, click.length);
                }
            }
            case 7 -> {
                // a loop from a player
                float[] loop = new float[rate / 2];
                tones(loop, 0, loop.length, 0.3, 1e-3);
                for (int at = 0; at < samples; at += loop.length) {
                    System.arraycopy(loop, 0, values, at, Math.min(loop.length, samples - at));
                }
            }
            case 8 -> {
                // an open microphone in a quiet hall
                hiss(values, 0, samples, 4e-5);
            }
            default -> {
                // an input that was muted for a while, hard
                tones(values, 0, samples, 0.2, 1e-4);
                int from = besideEdges(random.nextInt(samples));
                Arrays.fill(values, from, Math.min(samples, from + rate / 5 + random.nextInt(rate)), 0);
            }
        }
        return values;
    }

    /** What is muted until the end from the edge of a block on cannot be told from what was never written. */
    private int besideEdges(int sample) {
        int bytes = mono.bytesPerSample();
        int head = WaveHead.of(mono, 0).length;
        boolean edge = sample * bytes % 4096 < bytes || (sample * bytes + head) % 4096 < bytes;
        return edge ? sample + 1 : sample;
    }

    private void tones(float[] values, int from, int until, double level, double noise) {
        Arrays.fill(values, from, until, 0);
        for (int tone = 0; tone < 4; tone++) {
            double turn = 2 * Math.PI * 40 * Math.pow(2, 6 * random.nextDouble()) / mono.sampleRateHz();
            double phase = random.nextDouble() * 6;
            // each value of a sine follows from the two before
            double before = level / 4 * Math.sin(phase - turn);
            double now = level / 4 * Math.sin(phase);
            double twice = 2 * Math.cos(turn);
            for (int i = from; i < until; i++) {
                values[i] += (float) now;
                double next = twice * now - before;
                before = now;
                now = next;
            }
        }
        hiss(values, from, until, noise);
    }

    private void hiss(float[] values, int from, int until, double level) {
        long state = random.nextLong() | 1;
        for (int i = from; i < until; i++) {
            state = state * 6_364_136_223_846_793_005L + 1_442_695_040_888_963_407L;
            values[i] += (float) ((state >> 32) * 0x1p-31 * level);
        }
    }

    /** What an inspection says of it. */
    Inspection inspected() {
        List<RecordedFile> found = new ArrayList<>();
        List<Recordings.Broken> broken = new ArrayList<>();
        files.forEach((path, bytes) -> {
            if (notAllowed.contains(path)) {
                broken.add(Recordings.Broken.notLookedAt(path, "not allowed for this user"));
                return;
            }
            RecordedFile.Source source = () -> new InMemory(bytes);
            try (FileBytes open = source.open()) {
                found.add(new RecordedFile(path, WaveHeaderReader.read(open), source));
            } catch (UnreadableWave none) {
                broken.add(Recordings.Broken.header(path, none));
            } catch (IOException impossible) {
                throw new UncheckedIOException(impossible);
            }
        });
        Inspection inspection = new Inspection(
                new Recordings(found, broken, 0, null, false, "in memory", ""), (done, all) -> {}, () -> false);
        inspection.run();
        return inspection;
    }

    /** A file in memory. */
    static final class InMemory implements FileBytes {

        private final byte[] bytes;

        InMemory(byte[] bytes) {
            this.bytes = bytes;
        }

        @Override
        public long sizeBytes() {
            return bytes.length;
        }

        @Override
        public int read(ByteBuffer target, long offset) {
            if (offset >= bytes.length) {
                return -1;
            }
            int count = (int) Math.min(target.remaining(), bytes.length - offset);
            target.put(bytes, (int) offset, count);
            return count;
        }

        @Override
        public void close() {
            // nothing is open
        }
    }
}
