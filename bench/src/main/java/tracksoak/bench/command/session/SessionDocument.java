package tracksoak.bench.command.session;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tracksoak.bench.command.console.JsonText;
import tracksoak.profiles.Demand;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionRoom;

/** Sessions for {@code --json}. Names and units as in the run record. */
final class SessionDocument {

    private SessionDocument() {}

    static Map<String, Object> of(Session session, String origin) {
        Map<String, Object> json = new LinkedHashMap<>();
        JsonText.fields(session).forEach((name, value) -> {
            json.put(name, value);
            if (name.equals("about")) {
                json.put("origin", origin);
            }
        });
        json.put("bytesPerSecond", Demand.of(session).bytesPerSecond());
        return json;
    }

    static Map<String, Object> demand(Demand demand, List<SessionRoom> rooms) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("bytesPerSecond", demand.bytesPerSecond());
        json.put("bytesPerMinute", demand.bytesPerMinute());
        json.put("writtenBytesPerSecond", demand.writtenBytesPerSecond());
        json.put("readBytesPerSecond", demand.readBytesPerSecond());
        json.put("dataBytes", demand.dataBytes());
        json.put("openFiles", demand.openFiles());
        json.put("rooms", rooms.stream().map(SessionDocument::room).toList());
        return json;
    }

    private static Map<String, Object> room(SessionRoom room) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("fileSystem", room.shape().type());
        json.put("clusterBytes", room.shape().clusterBytes());
        json.put("files", room.files());
        json.put("fileBytes", room.fileBytes());
        json.put("allocatedBytes", room.allocatedBytes());
        json.put("directoryBytes", room.directoryBytes());
        json.put("totalBytes", room.totalBytes());
        json.put("exact", room.exact());
        return json;
    }
}
