package tracksoak.report.roster.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Certificates that a person trusts by hand. */
class TrustTest {

    @TempDir
    Path folder;

    /** A certificate by the JDK's own tool. */
    private Path certificate(String start, String days) throws IOException, InterruptedException {
        Path store = folder.resolve("store" + days + ".p12");
        Path pem = folder.resolve("certificate" + days + ".pem");
        keytool(List.of(
                "-genkeypair",
                "-alias",
                "own",
                "-keyalg",
                "EC",
                "-groupname",
                "secp256r1",
                "-dname",
                "CN=roster.example",
                "-startdate",
                start,
                "-validity",
                days,
                "-keystore",
                store.toString(),
                "-storepass",
                "invented"));
        keytool(List.of(
                "-exportcert",
                "-rfc",
                "-alias",
                "own",
                "-keystore",
                store.toString(),
                "-storepass",
                "invented",
                "-file",
                pem.toString()));
        return pem;
    }

    private void keytool(List<String> arguments) throws IOException, InterruptedException {
        List<String> words = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "keytool").toString()));
        words.addAll(arguments);
        Process process = new ProcessBuilder(words)
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("said").toFile())
                .start();
        assertThat(process.waitFor()).isZero();
    }

    @Test
    void aCertificateThatExpiredOrIsNotValidYetIsNotTrusted() throws IOException, InterruptedException {
        Path expired = certificate("-400d", "30");
        assertThatThrownBy(() -> Trust.of(expired))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("expired on");
        Path early = certificate("+40d", "31");
        assertThatThrownBy(() -> Trust.of(early))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("not valid before");
        assertThat(Trust.of(certificate("-1d", "365"))).isNotNull();
    }
}
