package tracksoak.bench.rig;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;
import java.util.function.Predicate;

/** What the emulator is told while it runs: one JSON object a line each way (QEMU Machine Protocol). */
final class Monitor implements AutoCloseable {

    private static final ObjectMapper JSON = new ObjectMapper();

    private final SocketChannel channel;
    private final BufferedReader answers;

    Monitor(Path socket) {
        try {
            channel = SocketChannel.open(StandardProtocolFamily.UNIX);
            channel.connect(UnixDomainSocketAddress.of(socket));
            answers = new BufferedReader(Channels.newReader(channel, StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException("no monitor at " + socket, e);
        }
        next(line -> line.has("QMP"));
        ask("qmp_capabilities", Map.of());
    }

    /**
     * Has a command carried out.
     *
     * @return what it answers
     * @throws IllegalStateException if it is refused
     */
    synchronized JsonNode ask(String command, Map<String, ?> arguments) {
        try {
            channel.write(
                    ByteBuffer.wrap((JSON.writeValueAsString(Map.of("execute", command, "arguments", arguments)) + "\n")
                            .getBytes(StandardCharsets.UTF_8)));
        } catch (IOException e) {
            throw new UncheckedIOException("the emulator has gone", e);
        }
        JsonNode answer = next(line -> line.has("return") || line.has("error"));
        if (answer.has("error")) {
            throw new IllegalStateException(command + " " + arguments + ": " + answer.get("error"));
        }
        return answer.get("return");
    }

    /** Waits for the event that a device is gone. */
    synchronized void awaitDeleted(String device) {
        next(line -> line.path("event").asText().equals("DEVICE_DELETED")
                && line.path("data").path("device").asText().equals(device));
    }

    private JsonNode next(Predicate<JsonNode> wanted) {
        try {
            while (true) {
                String line = answers.readLine();
                if (line == null) {
                    throw new IllegalStateException("the emulator has ended");
                }
                JsonNode answer = JSON.readTree(line);
                if (wanted.test(answer)) {
                    return answer;
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException("the emulator says nothing", e);
        }
    }

    @Override
    public void close() {
        try {
            channel.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
