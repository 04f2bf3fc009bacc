package tracksoak.report.roster.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;

class SmallJsonTest {

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    @Test
    void theLargestReceiptThereIsIsRead() throws IOException {
        Receipt receipt = Receipt.NONE;
        for (int i = 0; i < 200; i++) {
            receipt = receipt.refusing("event " + i, "it is none that this program knows");
        }
        assertThat(ReceiptJson.read(ReceiptJson.bytes(receipt), 200)).isEqualTo(receipt);
        assertThat(receipt.refused()).hasSizeGreaterThan(100);
        assertThat(List.of(SmallJson.sentence(bytes("{\"what\":\"a\",\"why\":\"b\"}"), 100)))
                .containsExactly("a: b");
    }
}
