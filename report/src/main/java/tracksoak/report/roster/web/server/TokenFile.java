package tracksoak.report.roster.web.server;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Failure;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;

/**
 * Crew tokens in a file of their owner's, without their secrets. Read again whenever it changed, so a server that runs heeds a
 * token revoked by a command on the same computer. Any thread; commands of two people at once are not foreseen.
 */
public final class TokenFile {

    /** Its name in the user's data folder. */
    public static final String NAME = "crew-tokens.json";

    private static final String SCHEMA = "tracksoak/crew-tokens/1";
    private static final int MOST_BYTES = 1 << 20;
    private static final int MOST_TOKENS = 1_000;
    private static final String CANNOT = "the crew tokens cannot be read";
    private static final ObjectMapper JSON = JsonMapper.builder()
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .enable(DeserializationFeature.FAIL_ON_MISSING_CREATOR_PROPERTIES)
            .enable(DeserializationFeature.FAIL_ON_NULL_CREATOR_PROPERTIES)
            .build();

    private final Path file;
    private @Nullable Kept kept;

    private record Kept(FileTime changed, long bytes, List<CrewToken> tokens) {}

    private record Content(String schema, List<CrewToken> tokens) {}

    /** @param file need not be there yet */
    public TokenFile(Path file) {
        this.file = file;
    }

    /** The one with that public part. */
    public Optional<CrewToken> byId(String id) {
        return all().stream().filter(token -> token.id().equals(id)).findFirst();
    }

    /**
     * All, oldest first.
     *
     * @throws Problem if the file is damaged or cannot be read
     */
    public synchronized List<CrewToken> all() {
        try {
            if (!Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
                return List.of();
            }
            FileTime changed = Files.getLastModifiedTime(file);
            long bytes = Files.size(file);
            Kept known = kept;
            if (known == null || !known.changed.equals(changed) || known.bytes != bytes) {
                known = new Kept(changed, bytes, read());
                kept = known;
            }
            return known.tokens;
        } catch (IOException e) {
            throw new Problem(
                    Kind.CANNOT, CANNOT, file.toString(), Inert.whole(Failure.words(e)), "check who may read it");
        }
    }

    private List<CrewToken> read() throws IOException {
        byte[] bytes;
        try (var in = Files.newInputStream(file)) {
            bytes = in.readNBytes(MOST_BYTES + 1);
        }
        try {
            Content content = JSON.readValue(bytes, Content.class);
            if (bytes.length <= MOST_BYTES
                    && content.schema().equals(SCHEMA)
                    && content.tokens().size() <= MOST_TOKENS
                    && content.tokens().stream().allMatch(Objects::nonNull)) {
                return content.tokens().stream()
                        .sorted(Comparator.comparing(CrewToken::madeAt).thenComparing(CrewToken::id))
                        .toList();
            }
        } catch (IOException | IllegalArgumentException | NullPointerException e) {
            // said below
        }
        throw new Problem(
                Kind.CORRUPT,
                CANNOT,
                file.toString(),
                "it is damaged, or of a newer version",
                "put a copy of it back, or move it away and give new tokens");
    }

    /**
     * Adds one, or replaces the one of the same id.
     *
     * @throws Problem if the file cannot be written; what was there before is then still there
     */
    public synchronized void keep(CrewToken token) {
        List<CrewToken> tokens = new ArrayList<>(all());
        tokens.removeIf(one -> one.id().equals(token.id()));
        tokens.add(token);
        write(tokens);
    }

    /** Keeps this one alone. Everything as in {@link #keep}. */
    public synchronized void keepOnly(CrewToken token) {
        write(List.of(token));
    }

    private void write(List<CrewToken> tokens) {
        if (tokens.size() > MOST_TOKENS) {
            throw new Problem(
                    Kind.FULL,
                    "the token cannot be kept",
                    tokens.size() + " tokens",
                    "there are " + MOST_TOKENS + " at most",
                    "move " + file + " away and give new ones");
        }
        try {
            AtomicFile.write(
                    file, JSON.writerWithDefaultPrettyPrinter().writeValueAsBytes(new Content(SCHEMA, tokens)));
            kept = null;
        } catch (IOException e) {
            throw new Problem(
                    Kind.CANNOT,
                    "the token cannot be kept",
                    file.toString(),
                    Inert.whole(Failure.words(e)),
                    "check room and permissions");
        }
    }
}
