package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Reads the run's files as the layout of their blocks is documented, without the bench's own reader. */
final class Blocks {

    private static final Pattern NAME = Pattern.compile("(\\S+)-track-(\\d+)-part-001\\.soak");
    private static final int BLOCK = 4096;
    private static final int HEADER = 4096;

    private Blocks() {}

    /**
     * Blocks that are not what their place says: another stream, another number, or no stamp at all. Wrong bytes inside a
     * block are not looked for.
     *
     * @param expected blocks that should be there in all
     */
    static long wrong(Path folder, long expected) throws IOException {
        Host.dropCaches();
        long seen = 0;
        long wrong = 0;
        List<Path> files;
        try (Stream<Path> listed = Files.list(folder)) {
            files = listed.filter(file -> NAME.matcher(name(file)).matches()).toList();
        }
        for (Path file : files) {
            Matcher matcher = NAME.matcher(name(file));
            assertThat(matcher.matches()).isTrue();
            int stream = Integer.parseInt(matcher.group(2)) - 1;
            int pass = pass(matcher.group(1));
            try (FileChannel channel = FileChannel.open(file)) {
                long blocks = (channel.size() - HEADER) / BLOCK;
                for (long number = 0; number < blocks; number++) {
                    wrong += isRight(read(channel, HEADER + number * BLOCK), stream, pass, number) ? 0 : 1;
                }
                seen += blocks;
            }
        }
        assertThat(seen).isEqualTo(expected);
        return wrong;
    }

    private static int pass(String label) {
        return switch (label) {
            case "take-1" -> 1;
            case "fill" -> 2;
            case "take-2" -> 3;
            default -> throw new IllegalArgumentException("unknown label " + label);
        };
    }

    private static boolean isRight(ByteBuffer block, int stream, int pass, long number) {
        return block.getInt(4) == stream
                && block.getLong(16) == number
                && block.getInt(24) == pass
                && block.getInt(28) == 0x4b414f53;
    }

    private static ByteBuffer read(FileChannel channel, long at) throws IOException {
        ByteBuffer block = ByteBuffer.allocate(BLOCK).order(ByteOrder.LITTLE_ENDIAN);
        int got;
        do {
            got = channel.read(block, at + block.position());
        } while (got > 0 && block.hasRemaining());
        return block;
    }

    private static String name(Path file) {
        return String.valueOf(file.getFileName());
    }
}
