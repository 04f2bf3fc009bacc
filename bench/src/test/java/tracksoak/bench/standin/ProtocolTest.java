package tracksoak.bench.standin;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.standin.Serving.Wire;

/** Cases of the protocol, with numbers written out from doc/proto.md of the NetworkBlockDevice project, not from our constants. */
class ProtocolTest {

    private static final int SIZE = 4 << 20;
    private static final int SEEDS = 150;

    @TempDir
    Path folder;

    @SuppressWarnings("NullAway.Init")
    private Serving serving;

    @BeforeEach
    void serve() {
        serving = new Serving(folder, SIZE, null);
    }

    @AfterEach
    void end() throws IOException {
        serving.close();
        assertThat(Files.size(Serving.image(folder))).isEqualTo(SIZE);
    }

    @Test
    void greetsAsFixedNewstyle() throws IOException {
        try (Wire wire = serving.connect()) {
            assertThat(wire.in.readNBytes(8)).isEqualTo("NBDMAGIC".getBytes(StandardCharsets.US_ASCII));
            assertThat(wire.in.readNBytes(8)).isEqualTo("IHAVEOPT".getBytes(StandardCharsets.US_ASCII));
            assertThat(wire.in.readShort()).isEqualTo((short) 3);
        }
    }

    @Test
    void anExportNameIsAnsweredWithSizeFlagsAndZeroesUnlessNotWanted() throws IOException {
        for (int flags : new int[] {1, 3}) {
            try (Wire wire = serving.connect().greet(flags)) {
                wire.option(1, new byte[0]);
                assertThat(wire.in.readLong()).isEqualTo(SIZE);
                // flags exist, flush, FUA, trim, write zeroes, several connections
                assertThat(wire.in.readShort()).isEqualTo((short) 0b1_0110_1101);
                if (flags == 1) {
                    assertThat(wire.in.readNBytes(124)).isEqualTo(new byte[124]);
                }
                wire.request(0, 3, 7, 0, 0);
                assertThat(wire.reply(7)).isZero();
            }
        }
    }

    /** Option, its data in hexadecimal, the last reply's type in hexadecimal. */
    @ParameterizedTest
    @CsvSource({
        "2, '', 1", // abort is acknowledged
        "3, '', 1", // a list ends so
        "3, 00, 80000003", // and takes no data
        "5, '', 80000001", // no TLS
        "8, '', 80000001", // no structured replies
        "9, '', 80000001",
        "4711, 0102, 80000001",
        "6, 000000000000, 1",
        "6, 0000000000010003, 1",
        "7, 0000000000020003, 80000003", // says two wishes and has one
        "7, 00000008000000, 80000003", // a name longer than the request
        "7, 0000, 80000003",
        "7, ffffffff0000, 80000003",
        "6, 000000016f0000, 80000006", // no drive of that name
        "7, 000000087374616e642d696e0000, 1",
    })
    void optionsAreAnswered(int option, String hex, String type) throws IOException {
        byte[] data = HexFormat.of().parseHex(hex);
        try (Wire wire = serving.connect().greet(3)) {
            wire.option(option, data);
            int got = wire.optionReply();
            while (got == 2 || got == 3) {
                got = wire.optionReply();
            }
            assertThat(Integer.toHexString(got)).isEqualTo(type);
            if (option == 2) {
                assertThat(wire.ended()).isTrue();
            }
        }
    }

    /** Command, flags, offset, length, the error it gets. */
    @ParameterizedTest
    @CsvSource({
        "0, 0, 0, 4096, 0",
        "0, 0, 1, 1, 0",
        "0, 0, 4194303, 1, 0",
        "0, 0, 4194304, 1, 22",
        "0, 0, -1, 1, 22",
        "0, 0, 0, 33554433, 22",
        "0, 2, 0, 512, 22", // a flag it did not offer
        "1, 0, 0, 512, 0",
        "1, 1, 4190208, 4096, 0",
        "1, 0, 4190208, 4097, 28",
        "1, 0, 9223372036854775807, 4096, 28",
        "1, 4, 0, 512, 22",
        "3, 0, 0, 0, 0",
        "4, 0, 0, 65536, 0",
        "4, 0, 4194304, 1, 28",
        "6, 0, 0, 4194304, 0",
        "6, 2, 0, 65536, 0",
        "6, 16, 0, 65536, 22", // fast zeroes were not offered
        "6, 0, 4096, 4194304, 28",
        "5, 0, 0, 0, 22",
        "99, 0, 0, 0, 22",
    })
    void requestsAreAnswered(int type, int flags, long offset, int length, int error) throws IOException {
        try (Wire wire = serving.connect().go()) {
            wire.request(flags, type, 42, offset, length);
            if (type == 1) {
                wire.out.write(new byte[length]);
            }
            assertThat(wire.reply(42)).isEqualTo(error);
            if (type == 0 && error == 0) {
                assertThat(wire.in.readNBytes(length)).hasSize(length);
            }
            // whatever it was, the conversation goes on
            wire.request(0, 0, 43, 0, 16);
            assertThat(wire.reply(43)).isZero();
            wire.in.readNBytes(16);
            wire.request(0, 2, 44, 0, 0);
            assertThat(wire.ended()).isTrue();
        }
        assertThat(serving.dropped()).isEmpty();
    }

    @Test
    void whoBreaksTheProtocolIsDroppedAndNamed() throws IOException {
        try (Wire wire = serving.connect().greet(4)) {
            assertThat(wire.ended()).isTrue();
        }
        try (Wire wire = serving.connect().greet(3)) {
            wire.out.writeLong(1);
            wire.out.writeLong(1);
            assertThat(wire.ended()).isTrue();
        }
        try (Wire wire = serving.connect().greet(3)) {
            wire.out.writeLong(0x49484156454F5054L);
            wire.out.writeInt(7);
            wire.out.writeInt(-1);
            assertThat(wire.ended()).isTrue();
        }
        try (Wire wire = serving.connect().greet(3)) {
            wire.option(1, "<b>other".getBytes(StandardCharsets.US_ASCII));
            assertThat(wire.ended()).isTrue();
        }
        try (Wire wire = serving.connect().go()) {
            wire.out.write(new byte[28]);
            assertThat(wire.ended()).isTrue();
        }
        try (Wire wire = serving.connect().go()) {
            wire.request(0, 1, 1, 0, 33_554_433);
            assertThat(wire.ended()).isTrue();
        }
        assertThat(serving.dropped())
                .containsExactly(
                        "it set flags that do not exist",
                        "what it sent is no option",
                        "it sent an option of 4294967295 bytes",
                        "it asked for a drive called \"<b>other\"",
                        "what it sent is no request",
                        "it sent a write of 33554433 bytes; most are 33554432");
    }

    @Test
    void manyRequestsAtOnceAreAllAnsweredAndInOrder() throws IOException {
        byte[] data = new byte[64 << 10];
        try (Wire wire = serving.connect().go()) {
            for (int i = 0; i < 60; i++) {
                Arrays.fill(data, (byte) i);
                wire.request(0, 1, i, (long) i * data.length, data.length);
                wire.out.write(data);
            }
            for (int i = 0; i < 60; i++) {
                assertThat(wire.reply(i)).isZero();
            }
            wire.request(0, 0, 99, 59L * data.length + 1, 3);
            assertThat(wire.reply(99)).isZero();
            assertThat(wire.in.readNBytes(3)).containsOnly(59);
        }
    }

    @Test
    void oneClientAtATimeWithSeveralConnections() throws IOException {
        try (Wire first = serving.connect().go();
                Wire second = serving.connect().go()) {
            first.request(0, 1, 1, 0, 4);
            first.out.writeInt(0x01020304);
            assertThat(first.reply(1)).isZero();
            second.request(0, 0, 2, 0, 4);
            assertThat(second.reply(2)).isZero();
            assertThat(second.in.readInt()).isEqualTo(0x01020304);

            try (Wire late = serving.connect().greet(3)) {
                late.option(7, new byte[6]);
                assertThat(Integer.toHexString(late.optionReply())).isEqualTo("80000002");
                assertThat(serving.refused()).containsExactly("the drive is in use by another client on this address");
                late.option(6, new byte[6]);
                assertThat(late.optionReply()).isEqualTo(3);
            }
        }
    }

    /** Else whoever says nothing keeps the recorder out, and nobody knows why. */
    @Test
    void connectionsThatSayNothingMakeRoomForTheRecorder() throws IOException {
        List<Wire> silent = new ArrayList<>();
        for (int i = 0; i < 32; i++) {
            silent.add(serving.connect());
            silent.get(i).in.readNBytes(18);
        }
        try (Wire recorder = serving.connect().go()) {
            recorder.request(0, 3, 5, 0, 0);
            assertThat(recorder.reply(5)).isZero();
            assertThat(silent.get(0).ended()).as("the oldest").isTrue();
            assertThat(serving.dropped()).containsExactly("it had not said what it wants, and its place was needed");
        } finally {
            for (Wire wire : silent) {
                wire.close();
            }
        }
    }

    @Test
    void whateverIsSentNothingBreaks() throws IOException {
        for (int seed = 0; seed < SEEDS; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            ByteBuffer sent = dialogue(random);
            for (int i = random.nextInt(6); i > 0; i--) {
                sent.put(random.nextInt(sent.limit()), (byte) random.nextInt(256));
            }
            try (Wire wire = serving.connect()) {
                byte[] all = new byte[random.nextInt(sent.limit() + 1)];
                sent.get(0, all);
                wire.out.write(all);
                if (random.nextBoolean()) {
                    wire.socket.shutdownOutput();
                    wire.in.skip(100);
                }
            } catch (IOException dropped) {
                assertThat(dropped).as("seed %s", seed).hasMessageMatching(".*(reset|Broken pipe|abort|closed).*");
            }
        }
        try (Wire wire = serving.connect().go()) {
            wire.request(0, 3, 5, 0, 0);
            assertThat(wire.reply(5)).as("it still serves").isZero();
        }
    }

    private static ByteBuffer dialogue(SplittableRandom random) {
        ByteBuffer all = ByteBuffer.allocate(40_000);
        all.putInt(3);
        for (int i = random.nextInt(3); i > 0; i--) {
            all.putLong(0x49484156454F5054L)
                    .putInt(random.nextInt(10))
                    .putInt(6)
                    .put(new byte[6]);
        }
        all.putLong(0x49484156454F5054L).putInt(7).putInt(6).put(new byte[6]);
        for (int i = random.nextInt(8); i > 0; i--) {
            int type = random.nextInt(8);
            int length = random.nextInt(4096);
            all.putInt(0x25609513)
                    .putShort((short) random.nextInt(2))
                    .putShort((short) type)
                    .putLong(i)
                    .putLong(random.nextLong(SIZE + 4096))
                    .putInt(length);
            if (type == 1) {
                all.put(new byte[length]);
            }
        }
        return all.flip();
    }
}
