package tracksoak.report.record.sign;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Base64;
import java.util.Collections;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordJson;
import tracksoak.report.verdict.Judge;

/** Signing and verifying, and the file a key lies in. */
class SignedRecordTest {

    private static final KeyRing ALL_KNOWN = id -> KeyRing.Status.KNOWN;

    private final TesterKey ada = TesterKey.create("Ada");

    private static RunRecord record(RunSketch sketch) {
        return sketch.record().withVerdict(Judge.judge(sketch.record()));
    }

    /** RFC 8032 §7.1, test 1. */
    @Test
    void theFirstVectorOfTheRfcComesOut() {
        VerifyKey open = new VerifyKey(VerifyKey.encode(
                HexFormat.of().parseHex("d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a")));
        byte[] seed = HexFormat.of().parseHex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60");
        byte[] signature = TesterKey.of("RFC 8032", seed, open).sign(new byte[0]);
        assertThat(HexFormat.of().formatHex(signature))
                .isEqualTo(
                        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9"
                                + "b46bd25bf5f0595bbe24655141438e7a100b");
        assertThat(open.holds(new byte[0], signature)).isTrue();
        assertThat(open.holds(new byte[1], signature)).isFalse();
        signature[3] ^= 1;
        assertThat(open.holds(new byte[0], signature)).isFalse();
        assertThat(open.holds(new byte[0], new byte[7])).isFalse();
    }

    @Test
    void aSignatureIsWorthWhatTheRingSays() {
        SignedRecord signed = SignedRecord.sign(record(RunSketch.good()), ada);
        assertThat(state(signed, ALL_KNOWN)).isEqualTo(SignatureState.GOOD);
        assertThat(state(signed, id -> KeyRing.Status.UNKNOWN)).isEqualTo(SignatureState.UNKNOWN_KEY);
        assertThat(state(signed, id -> KeyRing.Status.REVOKED)).isEqualTo(SignatureState.REVOKED);
    }

    @Test
    void theRecordComesBackEqual() {
        RunRecord record = record(RunSketch.good());
        SignedRecord signed = SignedRecord.sign(record, ada);
        assertThat(signed.record()).isEqualTo(record);
        assertThat(signed.by()).isEqualTo("Ada");
    }

    @ParameterizedTest
    @ValueSource(longs = {0, -1, 9_007_199_254_740_991L, 9_007_199_254_740_993L, Long.MAX_VALUE, Long.MIN_VALUE})
    void everyDigitOfTheSeedIsSigned(long seed) {
        String json =
                RecordJson.write(record(RunSketch.good())).replace("\"seed\": \"-42\"", "\"seed\": \"" + seed + "\"");
        SignedRecord signed = SignedRecord.sign(RecordJson.read(json.getBytes(UTF_8)), ada);
        assertThat(signed.record().seed().value()).isEqualTo(seed);
        String other = json.replace("\"seed\": \"" + seed + "\"", "\"seed\": \"" + (seed ^ 1) + "\"");
        assertThat(given(other.getBytes(UTF_8), "Ada", ada.verifyKey(), signed.signature())
                        .holds())
                .isFalse();
    }

    /** Signed by a program that wrote version 2, whose seed was a number beyond 2^53. */
    @Test
    void aSignatureOfAnOlderVersionHoldsForEver() throws IOException {
        Path older = Path.of("src/test/resources/older");
        List<String> said = Files.readAllLines(older.resolve("signed-2.txt"));
        SignedRecord signed = given(
                Files.readAllBytes(older.resolve("signed-2.json")),
                said.get(0),
                new VerifyKey(said.get(1)),
                Base64.getDecoder().decode(said.get(2)));
        assertThat(signed.holds()).isTrue();
        assertThat(signed.sha256()).isEqualTo(said.get(3));
        assertThat(signed.record().seed().value()).isEqualTo(-9_007_199_254_740_993L);
    }

    @Test
    void theFormOfTheJsonIsNotWhatIsSigned() {
        RunRecord record = record(RunSketch.good());
        SignedRecord signed = SignedRecord.sign(record, ada);
        assertThat(state(given(RecordJson.bytes(record), "Ada", ada.verifyKey(), signed.signature()), ALL_KNOWN))
                .isEqualTo(SignatureState.GOOD);
    }

    @Test
    void aChangeOfRecordNameOrKeyShows() {
        RunRecord record = record(RunSketch.good());
        SignedRecord signed = SignedRecord.sign(record, ada);
        byte[] json = RecordJson.bytes(record);
        byte[] nicer =
                RecordJson.write(record).replace("B4RN-0001", "B4RN-0002").getBytes(UTF_8);
        VerifyKey other = TesterKey.create("Ada").verifyKey();
        assertThat(state(given(nicer, "Ada", ada.verifyKey(), signed.signature()), ALL_KNOWN))
                .isEqualTo(SignatureState.CHANGED);
        assertThat(state(given(json, "Bea", ada.verifyKey(), signed.signature()), ALL_KNOWN))
                .isEqualTo(SignatureState.CHANGED);
        assertThat(state(given(json, "Ada", other, signed.signature()), ALL_KNOWN))
                .isEqualTo(SignatureState.CHANGED);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "short", "!!!!", "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAB"})
    void whatIsNoKeyIsRefused(String text) {
        assertThatThrownBy(() -> new VerifyKey(text)).isInstanceOf(RecordException.class);
    }

    @Test
    void aKeyOfSomebodyWhoSaidNoNameBearsNotTheAccounts(@TempDir Path data) {
        TesterKey key = TesterKeys.openOrCreate(data, "");
        assertThat(key.name()).isEqualTo("tester " + key.id().substring(0, 4));
        assertThat(TesterKeys.openOrCreate(data, "Ada").name()).isEqualTo(key.name());
    }

    @Test
    void theKeyIsMadeOnceAndIsTheOwnersAlone(@TempDir Path folder) throws IOException {
        Path data = folder.resolve("data");
        TesterKey first = TesterKeys.openOrCreate(data, "Ada");
        TesterKey second = TesterKeys.openOrCreate(data, "Somebody else");
        assertThat(second.id()).isEqualTo(first.id());
        assertThat(second.name()).isEqualTo("Ada");
        Path file = data.resolve(TesterKeys.FILE);
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                .isEqualTo("rw-------");
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
        assertThatThrownBy(() -> TesterKeys.openOrCreate(data, "Ada"))
                .isInstanceOf(RecordException.class)
                .hasMessageContaining("rw-r--r--");
    }

    @Test
    void manyAtOnceGetTheSameKey(@TempDir Path folder) throws Exception {
        ExecutorService crew = Executors.newFixedThreadPool(8);
        try {
            Set<String> ids = new HashSet<>();
            Callable<String> open = () -> TesterKeys.openOrCreate(folder, "Ada").id();
            for (Future<String> id : crew.invokeAll(Collections.nCopies(16, open))) {
                ids.add(id.get());
            }
            assertThat(ids).hasSize(1);
            assertThat(folder).isDirectoryContaining("glob:**tester-key.json").isDirectoryNotContaining("glob:**.half");
        } finally {
            crew.shutdownNow();
        }
    }

    @Test
    void aDamagedKeyFileIsNamedAndItsSecretIsNot(@TempDir Path folder) throws IOException {
        TesterKeys.openOrCreate(folder, "Ada");
        Path file = folder.resolve(TesterKeys.FILE);
        String json = Files.readString(file);
        String secret = json.replaceAll(".*\"secret\":\"([^\"]+)\".*", "$1");
        for (String bad : new String[] {"", "{", json.replace("\"secret\"", "\"s\""), json + "x", "{" + secret}) {
            Files.writeString(file, bad);
            assertThatThrownBy(() -> TesterKeys.openOrCreate(folder, "Ada"))
                    .isInstanceOf(RecordException.class)
                    .hasMessageContaining("tester-key.json")
                    .hasMessageNotContaining(secret);
        }
        String other = VerifyKey.encode(TesterKey.create("Bea").seed());
        Files.writeString(file, json.replace(secret, other));
        assertThatThrownBy(() -> TesterKeys.openOrCreate(folder, "Ada")).hasMessageContaining("do not belong together");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "  ", "\u202eAda", "A\nda", "\u0000"})
    void aNameThatDoesNotShowIsRefused(String name) {
        assertThatThrownBy(() -> TesterKey.create(name)).isInstanceOf(RecordException.class);
    }

    private static SignedRecord given(byte[] json, String by, VerifyKey key, byte[] signature) {
        return SignedRecord.kept(CanonicalJson.of(json), by, key, signature);
    }

    private static SignatureState state(SignedRecord signed, KeyRing ring) {
        return ring.judge(signed.key().id(), signed.holds());
    }
}
