package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;

/**
 * Run records as JSON. Reading is strict: unknown, missing, doubled or trailing parts, null where a value must be, and
 * figures out of bounds are errors. What was written reads back equal. Any thread.
 */
public final class RecordJson {

    /** Largest record read, in bytes. */
    public static final int MOST_BYTES = RecordFormat.MOST_BYTES;

    private static final String NAME = "run record";
    private static final Pattern VERSION = Pattern.compile("tracksoak/run-record/([1-9][0-9]{0,8})");

    /** One reader per version ever written; an old one turns its own model into today's. */
    private static final Map<Integer, Version> VERSIONS =
            Map.of(1, RecordJson::versionOne, 2, RecordJson::versionTwo, 3, RecordJson::versionThree);

    private static final RecordFormat<RunRecord> FORMAT =
            new RecordFormat<>(NAME, RecordCheck::check, RecordJson::read);

    private interface Version {
        RunRecord read(byte[] json) throws IOException;
    }

    private RecordJson() {}

    /**
     * The record as JSON text that ends in a line feed.
     *
     * @throws RecordException if a figure in it is no number or out of bounds: a fault of the caller
     */
    public static String write(RunRecord record) {
        return FORMAT.write(record);
    }

    /** {@link #write} in UTF-8. */
    public static byte[] bytes(RunRecord record) {
        return FORMAT.bytes(record);
    }

    /**
     * Reads a record of any version known.
     *
     * @param json UTF-8, at most {@value #MOST_BYTES} bytes
     * @throws RecordException if it is no record, damaged, or of a newer version
     */
    public static RunRecord read(byte[] json) {
        return FORMAT.read(json);
    }

    static void save(Path file, RunRecord record) {
        FORMAT.save(file, record);
    }

    /** Most are of today's version: they are read at once, and another, or what is none, is looked at again from its schema on. */
    private static RunRecord read(byte[] json, RecordFormat.Schema schema) throws IOException {
        try {
            RunRecord record = versionThree(json);
            // the text "null" gives none
            if (record != null && RunRecord.SCHEMA.equals(record.schema())) {
                return record;
            }
        } catch (JsonProcessingException notOfToday) {
            // what is wrong with it is said for the version that it says it is of
        }
        return version(schema.find()).read(json);
    }

    private static RunRecord versionThree(byte[] json) throws IOException {
        return RecordMapper.read(json, RunRecord.class);
    }

    private static RunRecord versionTwo(byte[] json) throws IOException {
        return RecordMapper.MAPPER.treeToValue(
                VersionTwo.raised(RecordMapper.read(json, JsonNode.class)), RunRecord.class);
    }

    private static RunRecord versionOne(byte[] json) throws IOException {
        return RecordMapper.MAPPER.treeToValue(
                VersionTwo.raised(VersionOne.raised(RecordMapper.read(json, JsonNode.class))), RunRecord.class);
    }

    private static Version version(@Nullable String schema) {
        Matcher matcher = VERSION.matcher(schema == null ? "" : schema);
        if (!matcher.matches()) {
            throw RecordFormat.wrongSchema(
                    NAME,
                    schema == null ? RecordFormat.NO_SCHEMA : "\"" + RecordCheck.brief(schema) + "\" is no run record",
                    "give the record.json of a run");
        }
        Version version = VERSIONS.get(Integer.parseInt(matcher.group(1)));
        if (version == null) {
            throw RecordFormat.wrongSchema(
                    NAME,
                    "version " + matcher.group(1) + " is newer than this program knows (" + VERSIONS.size() + ")",
                    "use the Tracksoak that wrote it, or a newer one");
        }
        return version;
    }
}
