package tracksoak.report.roster.web.server;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Crew tokens in a file of their owner's, without their secrets. Read again whenever it changed, so a server that runs heeds a
 * token revoked by a command on the same computer. Any thread; commands of two people at once are not foreseen.
 */
public final class TokenFile implements CrewTokens {

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

    @Override
    public Optional<CrewToken> byId(String id) {
        return all().stream().filter(token -> token.id().equals(id)).findFirst();
    }

    /** @throws SettingsException if the file is damaged or cannot be read */
    @Override
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
            throw new SettingsException(CANNOT, file.toString(), String.valueOf(e), "check who may read it");
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
        throw new SettingsException(
                CANNOT,
                file.toString(),
                "it is damaged, or of a newer version",
                "put a copy of it back, or move it away and give new tokens");
    }

    /** @throws SettingsException if the file cannot be written; what was there before is then still there */
    @Override
    public synchronized void keep(CrewToken token) {
        List<CrewToken> tokens = new ArrayList<>(all());
        tokens.removeIf(one -> one.id().equals(token.id()));
        tokens.add(token);
        if (tokens.size() > MOST_TOKENS) {
            throw new SettingsException(
                    "the token cannot be kept",
                    tokens.size() + " tokens",
                    "there are " + MOST_TOKENS + " at most",
                    "move " + file + " away and give new ones");
        }
        try {
            Path folder = Files.createDirectories(file.toAbsolutePath().getParent());
            Path half = Files.createTempFile(folder, ".tokens-", ".half", ownerOnly());
            try {
                Files.write(half, JSON.writerWithDefaultPrettyPrinter().writeValueAsBytes(new Content(SCHEMA, tokens)));
                move(half);
            } finally {
                Files.deleteIfExists(half);
            }
            kept = null;
        } catch (IOException e) {
            throw new SettingsException(
                    "the token cannot be kept", file.toString(), String.valueOf(e), "check room and permissions");
        }
    }

    private void move(Path half) throws IOException {
        try {
            Files.move(half, file, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(half, file, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    private static FileAttribute<?>[] ownerOnly() {
        return FileSystems.getDefault().supportedFileAttributeViews().contains("posix")
                ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
                }
                : new FileAttribute<?>[0];
    }
}
