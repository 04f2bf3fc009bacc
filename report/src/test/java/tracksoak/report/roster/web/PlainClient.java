package tracksoak.report.roster.web;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;

/** A client with an address of its own on this computer, 127.x.y.z, one connection at a time. Belongs to one thread. */
final class PlainClient {

    private static final int PATIENCE_MS = 20_000;

    private final InetAddress from;
    private final int port;

    /** @param from such as 127.0.1.7 */
    PlainClient(String from, int port) {
        try {
            this.from = InetAddress.getByName(from);
        } catch (IOException e) {
            throw new IllegalArgumentException(from, e);
        }
        this.port = port;
    }

    /** A connection from this client's address. */
    Socket connect() throws IOException {
        Socket socket = new Socket();
        try {
            socket.setReuseAddress(true);
            socket.bind(new InetSocketAddress(from, 0));
            socket.setSoTimeout(PATIENCE_MS);
            socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), PATIENCE_MS);
            return socket;
        } catch (IOException e) {
            socket.close();
            throw e;
        }
    }

    /** Status of the answer, after its last byte came. */
    int get(String path, String... headers) throws IOException {
        return ask(path, headers).status;
    }

    /** The answer to one request. */
    Reply ask(String path, String... headers) throws IOException {
        try (Socket socket = connect()) {
            send(socket, "GET " + path, "Connection: close", String.join("\r\n", headers));
            return reply(socket.getInputStream().readAllBytes());
        }
    }

    /** Sends a head. */
    static void send(Socket socket, String line, String... headers) throws IOException {
        StringBuilder head = new StringBuilder(line + " HTTP/1.1\r\nHost: localhost\r\n");
        for (String header : headers) {
            if (!header.isEmpty()) {
                head.append(header).append("\r\n");
            }
        }
        socket.getOutputStream().write(head.append("\r\n").toString().getBytes(StandardCharsets.ISO_8859_1));
        socket.getOutputStream().flush();
    }

    /** The status line of an answer that may go on, 0 where the server closed without one. */
    static int status(Socket socket) throws IOException {
        InputStream in = socket.getInputStream();
        ByteArrayOutputStream line = new ByteArrayOutputStream();
        for (int c = in.read(); c >= 0 && c != '\n'; c = in.read()) {
            line.write(c);
        }
        return status(line.toByteArray());
    }

    private static int status(byte[] answer) {
        return answer.length < 12 ? 0 : Integer.parseInt(new String(answer, 9, 3, StandardCharsets.US_ASCII));
    }

    private static Reply reply(byte[] answer) {
        return new Reply(status(answer), new String(answer, StandardCharsets.UTF_8));
    }

    /** @param text head and body */
    record Reply(int status, String text) {}
}
