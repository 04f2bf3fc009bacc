package tracksoak.bench.command.session;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tracksoak.profiles.Demand;
import tracksoak.profiles.Margins;
import tracksoak.profiles.ProfileError;
import tracksoak.profiles.Room;
import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;

/** Sessions for {@code --json}. Names and units as in the run record. */
final class SessionDocument {

    private SessionDocument() {}

    static Map<String, Object> of(Session session, String origin) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("name", session.name());
        json.put("title", session.title());
        json.put("about", session.about());
        json.put("origin", origin);
        json.put("kind", session.kind());
        json.put("groups", groups(session.groups()));
        json.put("mix", groups(session.mix()));
        json.put("lengthS", session.lengthS());
        json.put("layout", session.layout());
        json.put("chunkBytes", session.chunkBytes());
        json.put("arrival", session.arrival());
        json.put("writers", session.writers());
        json.put("flushS", session.flushS());
        json.put("bufferS", session.bufferS());
        json.put("bufferAssumed", session.bufferAssumed());
        json.put("fileLimitBytes", session.fileLimitBytes());
        json.put("fileSystems", session.fileSystems());
        json.put("stallLimitMs", session.stallLimitMs());
        json.put("validDays", session.validDays());
        json.put("margins", margins(session.margins()));
        json.put("bytesPerSecond", Demand.of(session).bytesPerSecond());
        return json;
    }

    private static List<Map<String, Object>> groups(List<TrackGroup> groups) {
        return groups.stream()
                .map(group -> {
                    Map<String, Object> json = new LinkedHashMap<>();
                    json.put("tracks", group.tracks());
                    json.put("sampleRateHz", group.sampleRateHz());
                    json.put("format", group.format());
                    return json;
                })
                .toList();
    }

    private static Map<String, Object> margins(Margins margins) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("buffer", margins.buffer());
        json.put("rate", margins.rate());
        json.put("port", margins.port());
        json.put("playback", margins.playback());
        json.put("longestStallMs", margins.longestStallMs());
        json.put("closeMs", margins.closeMs());
        return json;
    }

    static Map<String, Object> demand(Demand demand, List<Room> rooms) {
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

    private static Map<String, Object> room(Room room) {
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

    static List<Map<String, Object>> errors(List<ProfileError> errors) {
        return errors.stream()
                .map(error -> {
                    Map<String, Object> json = new LinkedHashMap<>();
                    json.put("file", error.file());
                    json.put("line", error.line());
                    json.put("column", error.column());
                    json.put("key", error.key());
                    json.put("value", error.value());
                    json.put("problem", error.problem());
                    json.put("allowed", error.allowed());
                    json.put("remedy", error.remedy());
                    return json;
                })
                .toList();
    }
}
