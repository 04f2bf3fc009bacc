package tracksoak.report.roster.exchange;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.ConnectException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpTimeoutException;
import java.nio.charset.StandardCharsets;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateNotYetValidException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.regex.Pattern;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLException;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Failure;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.roster.event.EventName;

/**
 * A roster behind {@code roster serve}, over HTTP. Follows no redirection, so the token goes nowhere else; reads no more of an
 * answer than it may hold; gives up where the other side does not answer whole in time, and waits where it is busy. Any thread, one call at a time.
 */
public final class RemoteRoster implements RosterPeer {

    private static final Duration CONNECT = Duration.ofSeconds(10);
    private static final int ANSWER_S = 120;
    /** How long a busy server is asked again. */
    private static final Duration PATIENCE = Duration.ofMinutes(5);

    private static final int LARGE_BYTES = 32 << 10;
    private static final int MOST_CUTS = 20;
    private static final int AGAIN_AFTER_CUT_S = 2;
    private static final Pattern SECONDS = Pattern.compile("[0-9]{1,3}");
    private static final int MOST_ANSWER_BYTES = 32 << 20;
    private static final int MOST_SENT_BYTES = 6 << 20;
    private static final int MOST_SAID = 300;

    private final HttpClient client;
    private final URI base;
    private final String token;
    private final int wholeS;
    private final boolean trustGiven;

    /**
     * @param base address of the server, such as {@code https://roster.example:8432}
     * @param token crew token; stands in no message
     * @param trust which certificates to trust, null for those this Java trusts
     */
    public RemoteRoster(URI base, String token, @Nullable SSLContext trust) {
        this(base, token, trust, ANSWER_S);
    }

    /** @param wholeS how long one answer may take, from the question to its last byte, in s */
    RemoteRoster(URI base, String token, @Nullable SSLContext trust, int wholeS) {
        this.wholeS = wholeS;
        this.trustGiven = trust != null;
        HttpClient.Builder builder = HttpClient.newBuilder()
                .version(HttpClient.Version.HTTP_1_1)
                .followRedirects(HttpClient.Redirect.NEVER)
                .connectTimeout(CONNECT);
        if (trust != null) {
            builder.sslContext(trust);
        }
        this.client = builder.build();
        this.base = base;
        this.token = token;
    }

    @Override
    public List<String> refs(String after, int limit) {
        byte[] answer =
                ask("names?limit=" + limit + "&after=" + URLEncoder.encode(after, StandardCharsets.UTF_8), null);
        List<String> refs = new String(answer, StandardCharsets.UTF_8).lines().toList();
        String before = after;
        for (String ref : refs) {
            if (!EventName.isWhole(ref)) {
                throw strange("its list of names holds what is none");
            }
            if (ref.compareTo(before) <= 0) {
                throw strange("its list of names is out of order");
            }
            before = ref;
        }
        if (refs.size() > limit) {
            throw strange("it sent more names than were asked for");
        }
        return refs;
    }

    @Override
    public List<Parcel> pull(List<String> refs) {
        byte[] answer = ask("fetch", String.join("\n", refs).getBytes(StandardCharsets.UTF_8));
        List<Parcel> parcels = new ArrayList<>();
        ByteArrayInputStream in = new ByteArrayInputStream(answer);
        try {
            for (byte[] line = ParcelLines.next(in); line != null; line = ParcelLines.next(in)) {
                readable(line).ifPresent(parcels::add);
            }
        } catch (Problem tooLong) {
            throw strange(tooLong.why(), tooLong);
        } catch (IOException impossible) {
            throw strange("its answer cannot be read", impossible);
        }
        return parcels;
    }

    /** One that cannot be read is left out: it keeps no other from coming, and whoever asked for it sees that it did not come. */
    private static Optional<Parcel> readable(byte[] line) {
        try {
            return Optional.of(ParcelLines.read(line));
        } catch (Problem unreadable) {
            return Optional.empty();
        }
    }

    /** Hands over in pieces that any server takes. */
    @Override
    public Receipt push(List<Parcel> parcels) {
        Receipt all = Receipt.NONE;
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        int events = 0;
        for (Parcel parcel : parcels) {
            byte[] line = ParcelLines.line(parcel);
            if (events > 0 && body.size() + line.length > MOST_SENT_BYTES) {
                all = all.and(take(body.toByteArray(), events));
                body.reset();
                events = 0;
            }
            body.writeBytes(line);
            events++;
        }
        return events == 0 ? all : all.and(take(body.toByteArray(), events));
    }

    private Receipt take(byte[] lines, int events) {
        try {
            return ReceiptJson.read(ask("take", lines), events);
        } catch (IOException noReceipt) {
            throw strange("what it says of the events handed over does not fit them", noReceipt);
        }
    }

    /** An answer, or after how many seconds to ask again. */
    @SuppressWarnings("ArrayRecordComponent") // handed on at once and never compared
    private record Reply(int status, int againAfterS, byte[] body) {}

    /** Asks, and where the server says that it is busy, waits as long as it says and asks again. */
    private byte[] ask(String what, byte @Nullable [] body) {
        long untilNs = SystemClocks.NANO.nanoTime() + PATIENCE.toNanos();
        int cuts = 0;
        while (true) {
            Reply reply;
            try {
                reply = once(what, body);
            } catch (Problem cut) {
                if (!cutShort(cut, body) || ++cuts > MOST_CUTS) {
                    throw cut;
                }
                reply = new Reply(503, AGAIN_AFTER_CUT_S, new byte[0]);
            }
            if (reply.status == 200) {
                return reply.body;
            }
            long againNs = SystemClocks.NANO.nanoTime()
                    + Duration.ofSeconds(reply.againAfterS).toNanos();
            if (reply.againAfterS == 0 || againNs > untilNs) {
                throw refused(reply.status, reply.body);
            }
            SystemClocks.PARK.waitUntil(againNs);
            if (Thread.currentThread().isInterrupted()) {
                throw unreachable("the sync was interrupted", "sync again; what was exchanged stays", null);
            }
        }
    }

    /** A busy server refuses a large body unread, and its refusal may be lost with what it did not read. */
    private static boolean cutShort(Problem e, byte @Nullable [] body) {
        Throwable cause = e.getCause();
        return body != null
                && body.length > LARGE_BYTES
                && cause instanceof IOException
                && !(cause instanceof ConnectException
                        || cause instanceof HttpTimeoutException
                        || cause instanceof SSLException);
    }

    /** Seconds until a request may come again, 0 where asking again is no use. */
    private static int againAfterS(HttpResponse<?> response) {
        if (response.statusCode() != 429 && response.statusCode() != 503) {
            return 0;
        }
        String said = response.headers().firstValue("Retry-After").orElse("");
        return SECONDS.matcher(said).matches() ? Math.max(1, Integer.parseInt(said)) : 0;
    }

    private Reply once(String what, byte @Nullable [] body) {
        HttpRequest.Builder request = HttpRequest.newBuilder(base.resolve("/sync/1/" + what))
                .header("Authorization", "Bearer " + token)
                .header("Accept", "application/json, text/plain");
        if (body == null) {
            request.GET();
        } else {
            request.header("Content-Type", "text/plain;charset=utf-8")
                    .POST(HttpRequest.BodyPublishers.ofByteArray(body));
        }
        try {
            HttpResponse<byte[]> response = answer(request.build());
            return new Reply(response.statusCode(), againAfterS(response), response.body());
        } catch (TimeoutException e) {
            throw unreachable(
                    "the server did not answer whole within " + wholeS + " s",
                    "check the address and the network, then sync again; what was exchanged stays",
                    e);
        } catch (SSLException e) {
            throw untrusted(e);
        } catch (IOException e) {
            boolean strange = String.valueOf(e.getMessage()).contains("status line");
            throw unreachable(
                    strange
                            ? "what answers there does not speak " + base.getScheme()
                            : "the server does not answer (" + Inert.text(Failure.told(e)) + ")",
                    strange
                            ? "if the server has a certificate, give the address as https://"
                            : "check the address and the network, then sync again; what was exchanged stays",
                    e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw unreachable("the sync was interrupted", "sync again; what was exchanged stays", e);
        }
    }

    /** Which of the things that can be wrong with a certificate is wrong with this one. */
    private Problem untrusted(SSLException e) {
        StringBuilder all = new StringBuilder();
        for (Throwable cause = e; cause != null; cause = cause.getCause()) {
            all.append(cause.getMessage()).append(' ');
            if (cause instanceof CertificateExpiredException || cause instanceof CertificateNotYetValidException) {
                return unreachable(
                        cause instanceof CertificateExpiredException
                                ? "the server's certificate has expired"
                                : "the server's certificate is not valid yet",
                        "see whether this computer's date is right; else whoever runs the server needs a new one",
                        e);
            }
        }
        String said = all.toString();
        if (said.contains("plaintext connection")) {
            return unreachable(
                    "what answers there does not speak https",
                    "ask whoever runs the server for a certificate; or give the address as http:// with --unencrypted,"
                            + " and everybody on the network can read along",
                    e);
        }
        if (said.contains("No subject alternative") || said.contains("No name matching")) {
            return unreachable(
                    "the server's certificate is for another name than " + base.getHost(),
                    "give the address by a name that stands in the certificate, or ask whoever runs the server for one"
                            + " with this name",
                    e);
        }
        if (said.contains("PKIX path")) {
            return trustGiven
                    ? unreachable(
                            "the server's certificate is another than that given with --trust",
                            "get the one it has now from whoever runs it; if they did not change it, another computer"
                                    + " answers there",
                            e)
                    : unreachable(
                            "nobody whom this computer trusts vouches for the server's certificate",
                            "get the certificate from whoever runs the server, and give it with --trust",
                            e);
        }
        return unreachable(
                "no encrypted connection could be made (" + Inert.text(Failure.words(e)) + ")",
                "check the address, and that a Tracksoak roster is served there",
                e);
    }

    /**
     * The whole answer, head and body together within the time that one may take: a server that sends a head and then nothing, or a byte now
     * and then, is given up like one that is silent.
     */
    private HttpResponse<byte[]> answer(HttpRequest request)
            throws IOException, InterruptedException, TimeoutException {
        CompletableFuture<HttpResponse<byte[]>> asked =
                client.sendAsync(request, head -> new BoundedBody(MOST_ANSWER_BYTES));
        try {
            return asked.get(wholeS, TimeUnit.SECONDS);
        } catch (ExecutionException e) {
            if (e.getCause() instanceof BoundedBody.TooLarge) {
                throw strange("its answer is larger than " + MOST_ANSWER_BYTES + " bytes");
            }
            if (e.getCause() instanceof IOException cause) {
                throw cause;
            }
            throw new IOException(e.getCause());
        } finally {
            asked.cancel(true);
        }
    }

    private Problem refused(int status, byte[] answer) {
        String said = SmallJson.sentence(answer, MOST_SAID);
        String why = said.isEmpty() ? "it answered with HTTP status " + status : said;
        return switch (status) {
            case 401 ->
                Kind.ASKED_WRONG.problem("the roster at " + base, why, "ask whoever runs the server for a crew token");
            case 404, 405 -> strange("there is no roster of Tracksoak at this address (" + why + ")");
            case 413, 422, 400 ->
                Kind.REFUSED.problem("the roster at " + base, why, "bring both to the same version of Tracksoak");
            case 429, 503 ->
                Kind.BUSY.problem("the roster at " + base, why, "sync again in a while; what was exchanged stays");
            default -> unreachable(why, "ask whoever runs the server", null);
        };
    }

    private Problem unreachable(String why, String todo, @Nullable Exception cause) {
        return Kind.UNREACHABLE.problem("the roster at " + base, why, todo, cause);
    }

    private Problem strange(String why) {
        return strange(why, null);
    }

    private Problem strange(String why, @Nullable Exception cause) {
        return Kind.REFUSED.problem(
                "the roster at " + base, why, "check the address, and that it is a Tracksoak roster", cause);
    }
}
