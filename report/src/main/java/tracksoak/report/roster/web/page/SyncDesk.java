package tracksoak.report.roster.web.page;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.event.EventName;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.ParcelLines;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.ReceiptJson;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.web.server.Exchange;
import tracksoak.report.roster.web.server.HttpAnswer;
import tracksoak.report.roster.web.server.Route;

/** What laptops ask for when they sync; for crew tokens only. Any thread. */
final class SyncDesk {

    private static final Pattern REF = Pattern.compile("[0-9a-f.-]{0,80}");
    private static final String LINES = "text/plain;charset=utf-8";
    private static final int MOST_NAMES_BYTES = RosterPeer.MOST_PARCELS * (EventName.LONGEST + 2);

    private final RosterPeer peer;
    private final int bodyBytes;

    SyncDesk(RosterPeer peer, int bodyBytes) {
        this.peer = peer;
        this.bodyBytes = bodyBytes;
    }

    List<Route> routes() {
        return List.of(
                Route.get("/sync/1/names", Route.Access.CREW, (exchange, path, body) -> names(exchange)),
                Route.post("/sync/1/fetch", Route.Access.CREW, MOST_NAMES_BYTES, (exchange, path, body) -> fetch(body)),
                Route.post("/sync/1/take", Route.Access.CREW, bodyBytes, (exchange, path, body) -> take(body)));
    }

    private HttpAnswer names(Exchange exchange) {
        int limit = exchange.whole("limit", RosterPeer.MOST_REFS, 1, RosterPeer.MOST_REFS);
        List<String> refs = peer.refs(ref(exchange.parameter("after")), limit);
        return HttpAnswer.of(LINES, String.join("\n", refs).getBytes(StandardCharsets.UTF_8));
    }

    private HttpAnswer fetch(byte[] body) {
        List<String> refs = new String(body, StandardCharsets.UTF_8)
                .lines()
                .map(SyncDesk::ref)
                .filter(ref -> !ref.isEmpty())
                .toList();
        ByteArrayOutputStream lines = new ByteArrayOutputStream();
        peer.pull(refs).forEach(parcel -> lines.writeBytes(ParcelLines.line(parcel)));
        return HttpAnswer.of(LINES, lines.toByteArray());
    }

    /** Taken or refused one by one: what is wrong in one event keeps no other from being taken. */
    private HttpAnswer take(byte[] body) {
        List<Parcel> parcels = new ArrayList<>();
        Receipt unreadable = Receipt.NONE;
        int lines = 0;
        ByteArrayInputStream in = new ByteArrayInputStream(body);
        try {
            for (byte[] line = ParcelLines.next(in); line != null; line = ParcelLines.next(in)) {
                if (++lines > RosterPeer.MOST_PARCELS) {
                    throw Exchange.bad("the body", "more than " + RosterPeer.MOST_PARCELS + " events at once");
                }
                try {
                    parcels.add(ParcelLines.read(line));
                } catch (Problem damaged) {
                    unreadable = unreadable.refusing(
                            ParcelLines.called(line, "event " + lines + " of the body"), damaged.told());
                }
            }
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
        return HttpAnswer.of(
                HttpAnswer.JSON, ReceiptJson.bytes(peer.push(parcels).and(unreadable)));
    }

    private static String ref(String text) {
        if (!REF.matcher(text).matches()) {
            throw Exchange.bad("the name of an event", "it is none");
        }
        return text;
    }
}
