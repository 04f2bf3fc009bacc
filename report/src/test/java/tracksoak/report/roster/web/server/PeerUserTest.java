package tracksoak.report.roster.web.server;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import java.util.Set;
import org.junit.jupiter.api.Test;

/** Tables as Linux prints them (Documentation/networking/proc_net_tcp). Port 45077 is B015, 46550 is B5D6. */
class PeerUserTest {

    private static final String TABLE = """
              sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid  timeout inode
               0: 0100007F:B015 00000000:0000 0A 00000000:00000000 00:00000000 00000000  1000        0 1061 1 0 100 0 0 10 0
               1: 0100007F:B015 0100007F:B5D6 01 00000000:00000000 00:00000000 00000000  1000        0 1062 1 0 20 4 30 10 -1
            """;

    private static String with(String uid, String inode) {
        return TABLE + "   2: 0100007F:B5D6 0100007F:B015 01 00000000:00000000 00:00000000 00000000  " + uid
                + "        0 " + inode + " 1 0 20 4 30 10 -1\n";
    }

    private final PeerUser owner = new PeerUser(Set.of("1000"));

    @Test
    void theOneWhoStartedItMayCome() {
        assertThat(owner.welcome(with("1000", "1063"), 46550, 45077)).contains(true);
        assertThat(owner.welcome(
                        "  9: 0000000000000000FFFF00000100007F:B5D6 0000000000000000FFFF00000100007F:B015 01 00000000:00000000"
                                + " 00:00000000 00000000  1000        0 1063 1 0 20 4 30 10 -1\n",
                        46550,
                        45077))
                .contains(true);
    }

    @Test
    void anotherUserMayNot() {
        assertThat(owner.welcome(with("1001", "1063"), 46550, 45077)).contains(false);
        assertThat(owner.welcome(with("0", "1063"), 46550, 45077)).contains(false);
    }

    /** A socket that was closed after it had sent something belongs to nobody; Linux then says root. */
    @Test
    void nobodyMayNot() {
        assertThat(owner.welcome(TABLE, 46550, 45077)).isEmpty();
        assertThat(new PeerUser(Set.of("0")).welcome(with("0", "0"), 46550, 45077))
                .contains(false);
        assertThat(owner.welcome(with("1000", "1063"), 46551, 45077)).isEmpty();
        assertThat(owner.welcome(with("1000", "1063"), 46550, 45078)).isEmpty();
        assertThat(owner.welcome("", 46550, 45077)).isEmpty();
        assertThat(owner.welcome("\n1 2 3\nx\n", 46550, 45077)).isEmpty();
    }

    @Test
    void whereNothingIsKnownNobodyIsTurnedAway() {
        assertThatCode(() -> new PeerUser(Set.of()).check(1, 2)).doesNotThrowAnyException();
    }
}
