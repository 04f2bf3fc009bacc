package tracksoak.report.roster.exchange;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.URI;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.event.EventDraft;

/** What a server can do to the laptop that syncs with it. */
@Timeout(60)
class RemoteRosterTest {

    private static final Pattern LENGTH = Pattern.compile("(?i)content-length: *(\\d+)");

    private final CountDownLatch end = new CountDownLatch(1);
    private final List<ServerSocket> servers = new java.util.ArrayList<>();

    private interface Script {
        void answer(OutputStream out) throws IOException, InterruptedException;
    }

    @AfterEach
    void close() throws IOException {
        end.countDown();
        for (ServerSocket server : servers) {
            server.close();
        }
    }

    /** Speaks to everybody who comes as the script says, then says nothing until the test ends. */
    private RemoteRoster against(Script script) throws IOException {
        return against(script, 1);
    }

    private RemoteRoster against(Script script, int wholeS) throws IOException {
        ServerSocket server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
        servers.add(server);
        Thread thread = new Thread(() -> {
            while (!server.isClosed()) {
                try (Socket socket = server.accept()) {
                    readWhole(socket.getInputStream());
                    script.answer(socket.getOutputStream());
                    socket.getOutputStream().flush();
                } catch (IOException closed) {
                    // the next one
                } catch (InterruptedException ended) {
                    Thread.currentThread().interrupt();
                    return;
                }
            }
        });
        thread.setDaemon(true);
        thread.start();
        return new RemoteRoster(URI.create("http://localhost:" + server.getLocalPort()), "token", null, wholeS);
    }

    /** What is left unread when a connection is closed may take the answer with it. */
    private static void readWhole(InputStream in) throws IOException {
        StringBuilder head = new StringBuilder();
        while (head.indexOf("\r\n\r\n") < 0) {
            int c = in.read();
            if (c < 0) {
                throw new EOFException();
            }
            head.append((char) c);
        }
        Matcher length = LENGTH.matcher(head);
        in.readNBytes(length.find() ? Integer.parseInt(length.group(1)) : 0);
    }

    private static void head(OutputStream out, String length) throws IOException {
        out.write(("HTTP/1.1 200 OK\r\nContent-Type: text/plain\r\n" + length + "\r\n\r\n").getBytes(UTF_8));
        out.flush();
    }

    private static void text(OutputStream out, String body) throws IOException {
        head(out, "Connection: close\r\nContent-Length: " + body.getBytes(UTF_8).length);
        out.write(body.getBytes(UTF_8));
    }

    private static void isGivenUp(RemoteRoster there) {
        Problem problem = catchThrowableOfType(Problem.class, () -> there.refs("", 10));
        assertThat(problem).isNotNull().hasMessageContaining("within 1 s");
        assertThat(problem.kind()).isEqualTo(Problem.Kind.UNREACHABLE);
    }

    @Test
    void aHeadAndThenNothingIsGivenUp() throws IOException {
        isGivenUp(against(out -> {
            head(out, "Content-Length: 100");
            end.await();
        }));
    }

    @Test
    void anAnswerByteByByteIsGivenUp() throws IOException {
        isGivenUp(against(out -> {
            head(out, "Content-Length: 100000");
            while (!end.await(50, TimeUnit.MILLISECONDS)) {
                out.write('a');
                out.flush();
            }
        }));
    }

    @Test
    void silenceIsGivenUp() throws IOException {
        isGivenUp(against(out -> end.await()));
    }

    @Test
    void anAnswerWithoutEndIsCutOff() throws IOException {
        RemoteRoster there = against(out -> {
            head(out, "Connection: close");
            byte[] much = new byte[1 << 20];
            java.util.Arrays.fill(much, (byte) 'a');
            for (int i = 0; i < 64; i++) {
                out.write(much);
            }
        });
        Problem problem = catchThrowableOfType(Problem.class, () -> there.refs("", 10));
        assertThat(problem).isNotNull();
        assertThat(problem.getMessage()).containsAnyOf("larger than", "within 1 s");
    }

    @Test
    void aListOfNamesWithoutEndIsCutOff() {
        RosterPeer endless = new RosterPeer() {
            private long number;

            @Override
            public List<String> refs(String after, int limit) {
                return java.util.stream.LongStream.range(0, limit)
                        .mapToObj(i -> "%020d".formatted(number++))
                        .toList();
            }

            @Override
            public List<Parcel> pull(List<String> refs) {
                return List.of();
            }

            @Override
            public Receipt push(List<Parcel> parcels) {
                return Receipt.NONE;
            }
        };
        RefCursor cursor = new RefCursor(endless, 5_000, 20_000);
        Problem problem = catchThrowableOfType(Problem.class, () -> {
            while (cursor.current() != null) {
                cursor.take();
            }
        });
        assertThat(problem).isNotNull().hasMessageContaining("more than 20000");
    }

    @Test
    void oneEventThatCannotBeReadKeepsNoOtherBack() throws IOException {
        TesterKey ada = TesterKey.create("Ada");
        Parcel good = new Parcel(
                EventDraft.note("d-00000000000000000000", "hello").sign(ada, Shows.START.plus(Duration.ofHours(1))),
                null);
        RemoteRoster there =
                against(out -> text(out, "{\"no\":\"event\"}\n" + new String(ParcelLines.line(good), UTF_8)));
        assertThat(there.pull(List.of("a", good.event().ref())))
                .extracting(parcel -> parcel.event().ref())
                .containsExactly(good.event().ref());
    }

    private static Parcel note(String text) {
        TesterKey ada = TesterKey.create("Ada");
        return new Parcel(EventDraft.note("d-00000000000000000000", text).sign(ada, Shows.START), null);
    }

    private static void isStrange(ThrowingCallable asks, String why) {
        Problem problem = catchThrowableOfType(Problem.class, asks);
        assertThat(problem).as(why).isNotNull();
        assertThat(problem.kind()).isEqualTo(Problem.Kind.REFUSED);
        assertThat(problem.getMessage())
                .startsWith("the roster at http://localhost:")
                .contains(why, "check the address, and that it is a Tracksoak roster");
    }

    /** Three events are handed over: what a receipt does not account for may be lost. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "'taken':0,'known':0,'refused':[]",
                "'taken':2,'known':0,'refused':[]",
                "'taken':2,'known':2,'refused':[]",
                "'taken':3,'known':1,'refused':[]",
                "'taken':4,'known':-1,'refused':[]",
                "'taken':'3','known':0,'refused':[]",
                "'taken':3.0,'known':0,'refused':[]",
                "'taken':4294967299,'known':0,'refused':[]",
                "'taken':0,'taken':3,'known':0,'refused':[]",
                "'taken':2,'known':0,'refused':[null]",
                "'taken':2,'known':0,'refused':[{}]",
                "'taken':2,'known':0,'refused':[{'event':'a','why':' '}]",
                "'taken':2,'known':0,'refused':[{'event':'a','why':7}]",
                "'taken':3,'known':0"
            })
    void aReceiptThatDoesNotAccountForWhatWasHandedOverIsNone(String says) throws IOException {
        String receipt =
                "{'schema':'tracksoak/roster-receipt/1',%s}".formatted(says).replace('\'', '"');
        RemoteRoster there = against(out -> text(out, receipt));
        isStrange(
                () -> there.push(List.of(note("one"), note("two"), note("three"))),
                "what it says of the events handed over does not fit them");
    }

    @Test
    void aReceiptThatAccountsForAllIsTaken() throws IOException {
        RemoteRoster there = against(out -> text(
                out,
                "{\"schema\":\"tracksoak/roster-receipt/1\",\"taken\":1,\"known\":1,"
                        + "\"refused\":[{\"event\":\"a\",\"why\":\"damaged\"}]}\n"));
        assertThat(there.push(List.of(note("one"), note("two"), note("three"))))
                .isEqualTo(new Receipt(1, 1, List.of(new Receipt.Refusal("a", "damaged"))));
    }

    /** What a hotel's network answers before somebody has logged in there. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "<html><body>Please log in</body></html>",
                "{\"schema\":\"tracksoak/roster-receipt/1\",\"taken\":1,\"known\":0,\"refused\":[]} and more"
            })
    void anAnswerThatIsNoReceiptIsThatOfAStrangeServer(String answer) throws IOException {
        RemoteRoster there = against(out -> text(out, answer));
        isStrange(() -> there.push(List.of(note("one"))), "what it says of the events handed over");
    }

    @Test
    void aPageInTheWayOfTheNamesIsThatOfAStrangeServer() throws IOException {
        RemoteRoster there = against(out -> text(out, "<html><body>Please log in</body></html>"));
        isStrange(() -> there.refs("", 10), "its list of names holds what is none");
    }

    @Test
    void aLineTooLongIsThatOfAStrangeServer() throws IOException {
        RemoteRoster there = against(out -> text(out, "a".repeat(ParcelLines.LONGEST + 1)), 30);
        isStrange(() -> there.pull(List.of("a")), "it has a line longer than");
    }

    /** 12 MB of brackets would be 4 million nodes. */
    @Test
    void aReceiptOfMillionsOfPartsIsRefusedWhileItIsRead() {
        String many = "{\"schema\":\"tracksoak/roster-receipt/1\",\"refused\":[" + "{},".repeat(4_000_000) + "{}]}";
        assertThatThrownBy(() -> ReceiptJson.read(many.getBytes(UTF_8), 200)).isInstanceOf(IOException.class);
        assertThat(SmallJson.sentence(many.getBytes(UTF_8), 200)).isEmpty();
        assertThatThrownBy(() -> SmallJson.read("[".repeat(9).getBytes(UTF_8))).isInstanceOf(IOException.class);
    }
}
