package tracksoak.report.roster.web.server;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Problem;

class TokenFileTest {

    @TempDir
    Path folder;

    private CrewToken.Fresh fresh(String holder, String madeAt) {
        return CrewToken.make(holder, madeAt, "", new SecureRandom());
    }

    @Test
    void anotherReaderSeesWhatWasKeptAndRevoked() {
        TokenFile one = new TokenFile(folder.resolve("deep/tokens.json"));
        TokenFile other = new TokenFile(folder.resolve("deep/tokens.json"));
        assertThat(other.all()).isEmpty();
        CrewToken later = fresh("monitor desk", "2026-03-02T10:00:00Z").kept();
        CrewToken first = fresh("van", "2026-03-01T10:00:00Z").kept();
        one.keep(later);
        one.keep(first);
        assertThat(other.all()).containsExactly(first, later);
        one.keep(first.revoked("2026-03-05T10:00:00Z"));
        assertThat(other.byId(first.id()).orElseThrow().revokedAt()).isEqualTo("2026-03-05T10:00:00Z");
        assertThat(other.byId("000000000000")).isEmpty();
    }

    @Test
    void onlyItsOwnerReadsIt() throws IOException {
        Path file = folder.resolve("tokens.json");
        new TokenFile(file).keep(fresh("van", "2026-03-01T10:00:00Z").kept());
        if (Files.getFileStore(file).supportsFileAttributeView("posix")) {
            assertThat(java.nio.file.attribute.PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                    .isEqualTo("rw-------");
        }
    }

    @Test
    void theSecretOpensAndNothingElseDoes() {
        CrewToken.Fresh fresh = fresh("van", "2026-03-01T10:00:00Z");
        CrewToken.Shown shown = CrewToken.Shown.of(fresh.text());
        assertThat(shown.id()).isEqualTo(fresh.kept().id());
        assertThat(fresh.kept().opens(shown.secret())).isTrue();
        assertThat(fresh.kept().opens(shown.secret() + "x")).isFalse();
        assertThat(fresh.kept().opens("")).isFalse();
        assertThat(CrewToken.Shown.of(fresh.text() + " ").id()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "null",
                "[]",
                "{\"schema\":\"tracksoak/crew-tokens/2\",\"tokens\":[]}",
                "{\"schema\":\"tracksoak/crew-tokens/1\"}",
                "{\"schema\":\"tracksoak/crew-tokens/1\",\"tokens\":[null]}",
                "{\"schema\":\"tracksoak/crew-tokens/1\",\"tokens\":[{\"id\":\"x\"}]}",
                "{\"schema\":\"tracksoak/crew-tokens/1\",\"tokens\":[]} trailing",
            })
    void aDamagedFileOpensNothingAndIsLeftAsItIs(String text) throws IOException {
        Path file = Files.writeString(folder.resolve("tokens.json"), text);
        TokenFile tokens = new TokenFile(file);
        assertThatThrownBy(tokens::all).isInstanceOf(Problem.class).hasMessageContaining("tokens.json");
        assertThatThrownBy(
                        () -> tokens.keep(fresh("van", "2026-03-01T10:00:00Z").kept()))
                .isInstanceOf(Problem.class);
        assertThat(file).content().isEqualTo(text);
    }
}
