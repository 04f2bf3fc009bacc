package tracksoak.report.roster.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.util.Base64;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.exchange.RemoteRoster;
import tracksoak.report.roster.exchange.Trust;
import tracksoak.report.roster.web.server.RosterSettings;

/** What people are told where a certificate is wrong, or http meets https: by the JDK's own tool and its own client. */
class CertificatesTest {

    @TempDir
    Path folder;

    private record Pair(Path certificate, Path key) {}

    private Pair make(String name, String start, int days, String also)
            throws IOException, InterruptedException, GeneralSecurityException {
        Path store = folder.resolve(name + ".p12");
        Process keytool = new ProcessBuilder(List.of(
                        Path.of(System.getProperty("java.home"), "bin", "keytool")
                                .toString(),
                        "-genkeypair",
                        "-alias",
                        "own",
                        "-keyalg",
                        "EC",
                        "-groupname",
                        "secp256r1",
                        "-dname",
                        "CN=" + name,
                        "-startdate",
                        start,
                        "-validity",
                        Integer.toString(days),
                        "-ext",
                        "SAN=" + also,
                        "-keystore",
                        store.toString(),
                        "-storepass",
                        "invented"))
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("said").toFile())
                .start();
        assertThat(keytool.waitFor()).isZero();
        KeyStore keys = KeyStore.getInstance("PKCS12");
        try (InputStream in = Files.newInputStream(store)) {
            keys.load(in, "invented".toCharArray());
        }
        return new Pair(
                pem(name + ".pem", "CERTIFICATE", keys.getCertificate("own").getEncoded()),
                pem(
                        name + ".key",
                        "PRIVATE KEY",
                        keys.getKey("own", "invented".toCharArray()).getEncoded()));
    }

    private Path pem(String file, String what, byte[] der) throws IOException {
        return Files.writeString(
                folder.resolve(file),
                "-----BEGIN " + what + "-----\n" + Base64.getMimeEncoder().encodeToString(der) + "\n-----END " + what
                        + "-----\n");
    }

    private Served served(String name, @Nullable Pair pair) throws IOException {
        return new Served(
                Files.createDirectory(folder.resolve(name + "-served")),
                usual -> new RosterSettings(
                        usual.bind(),
                        usual.port(),
                        pair == null ? null : pair.certificate,
                        pair == null ? null : pair.key,
                        false,
                        true,
                        List.of(),
                        null,
                        usual.limits()));
    }

    private static String told(Served served, String scheme, @Nullable Pair trust) throws IOException {
        RemoteRoster there = new RemoteRoster(
                URI.create(scheme + "://127.0.0.1:" + served.server.port()),
                served.token.text(),
                trust == null ? null : Trust.of(trust.certificate));
        Problem problem = catchThrowableOfType(Problem.class, () -> there.refs("", 10));
        return problem == null ? "fine" : problem.getMessage();
    }

    @Test
    void eachThingThatCanBeWrongIsSaidForWhatItIs() throws Exception {
        Pair good = make("good", "2025/01/01 12:00:00", 36_500, "ip:127.0.0.1");
        Pair other = make("other", "2025/01/01 12:00:00", 36_500, "dns:roster.example");
        try (Served served = served("good", good)) {
            assertThat(served.failures).isEmpty();
            assertThat(told(served, "https", good)).isEqualTo("fine");
            assertThat(told(served, "https", null))
                    .contains("nobody whom this computer trusts vouches for the server's certificate", "--trust")
                    .doesNotContain("PKIX", "sun.");
            assertThat(told(served, "https", other))
                    .contains("another than that given with --trust")
                    .doesNotContain("PKIX", "sun.");
            assertThat(told(served, "http", null))
                    .contains("does not speak http", "https://")
                    .doesNotContain("status line");
        }
        try (Served served = served("other", other)) {
            assertThat(told(served, "https", other))
                    .contains("is for another name than 127.0.0.1")
                    .doesNotContain("give it with --trust");
        }
        try (Served served = served("plain", null)) {
            assertThat(told(served, "https", null))
                    .contains("does not speak https", "http://")
                    .doesNotContain("SSL");
        }
    }

    /** The server's clock stands at 2026-02-15. */
    @Test
    void aCertificateThatExpiredOrSoonWillIsSaidAtTheStart() throws Exception {
        Pair expired = make("expired", "2025/01/01 12:00:00", 30, "ip:127.0.0.1");
        try (Served served = served("expired", expired)) {
            assertThat(served.failures)
                    .singleElement()
                    .asString()
                    .contains("expired.pem", "expired on 2025-01-31", "laptops refuse it");
        }
        try (Served served = served("soon", make("soon", "2026/01/01 12:00:00", 60, "ip:127.0.0.1"))) {
            assertThat(served.failures).singleElement().asString().contains("ends on 2026-03-02");
        }
    }
}
