package tracksoak.bench.command.roster;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.job.Rooms;

/** How a sync ends that did not get all: said, and not with 0. */
@Timeout(60)
class RosterSyncEndsTest {

    private static final String NAME = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f." + "0123456789abcdef".repeat(2);

    @TempDir
    Path folder;

    /** Names one event, and gives nonsense for it. */
    private static Thread server(ServerSocket socket) {
        Thread thread = new Thread(() -> {
            while (!socket.isClosed()) {
                try (Socket one = socket.accept()) {
                    BufferedReader in = new BufferedReader(new InputStreamReader(one.getInputStream(), UTF_8));
                    String asked = String.valueOf(in.readLine());
                    int length = 0;
                    for (String head = in.readLine(); head != null && !head.isEmpty(); head = in.readLine()) {
                        length = head.toLowerCase(Locale.ROOT).startsWith("content-length:")
                                ? Integer.parseInt(head.substring(15).strip())
                                : length;
                    }
                    for (int i = 0; i < length; i++) {
                        assertThat(in.read()).isNotNegative();
                    }
                    String body = asked.contains("/names?") ? NAME : "nonsense\n";
                    one.getOutputStream()
                            .write(
                                    ("HTTP/1.1 200 OK\r\nContent-Type: text/plain\r\nConnection: close\r\nContent-Length: "
                                                    + body.length() + "\r\n\r\n" + body)
                                            .getBytes(UTF_8));
                    one.getOutputStream().flush();
                } catch (IOException closed) {
                    // the next one
                }
            }
        });
        thread.setDaemon(true);
        thread.start();
        return thread;
    }

    @Test
    void anEventThatCannotBeReadIsCountedAndTheSidesAreNotTheSame() throws IOException {
        Rooms rooms = new TestRooms(Files.createDirectory(folder.resolve("host")), List.of());
        Path token = folder.resolve("token");
        Files.writeString(token, "crew-000000000000-abc");
        try (ServerSocket socket = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
            assertThat(server(socket).isDaemon()).isTrue();
            String line = "roster sync http://localhost:" + socket.getLocalPort() + " --token-file " + token;
            Typed typed = Typed.run(rooms, Stream.of(line.split(" ")).toArray(String[]::new));
            assertThat(typed.code()).as(typed.out() + typed.err()).isEqualTo(3);
            assertThat(typed.out())
                    .contains("1 event refused: the sides differ in them.")
                    .doesNotContain("same now");
            assertThat(typed.err()).contains("refused here: " + NAME);
        }
    }
}
