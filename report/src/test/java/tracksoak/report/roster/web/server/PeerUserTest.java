package tracksoak.report.roster.web.server;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Set;
import org.junit.jupiter.api.Test;
import tracksoak.report.roster.web.server.PeerUser.Peer;

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
        assertThat(owner.peer(with("1000", "1063"), 46550, 45077)).isEqualTo(Peer.WELCOME);
        assertThat(owner.peer(
                        "  9: 0000000000000000FFFF00000100007F:B5D6 0000000000000000FFFF00000100007F:B015 01 00000000:00000000"
                                + " 00:00000000 00000000  1000        0 1063 1 0 20 4 30 10 -1\n",
                        46550,
                        45077))
                .isEqualTo(Peer.WELCOME);
    }

    @Test
    void anotherUserMayNot() {
        assertThat(owner.peer(with("1001", "1063"), 46550, 45077)).isEqualTo(Peer.STRANGER);
        assertThat(owner.peer(with("0", "1063"), 46550, 45077)).isEqualTo(Peer.STRANGER);
    }

    /** A socket that was closed after it had sent something belongs to nobody; Linux then says root. */
    @Test
    void nobodyMayNot() {
        assertThat(owner.peer(TABLE, 46550, 45077)).isEqualTo(Peer.NOBODY);
        assertThat(new PeerUser(Set.of("0")).peer(with("0", "0"), 46550, 45077)).isEqualTo(Peer.NOBODY);
        assertThat(owner.peer(with("1000", "1063"), 46551, 45077)).isEqualTo(Peer.NOBODY);
        assertThat(owner.peer(with("1000", "1063"), 46550, 45078)).isEqualTo(Peer.NOBODY);
        assertThat(owner.peer("", 46550, 45077)).isEqualTo(Peer.NOBODY);
        assertThat(owner.peer("\n1 2 3\nx\n", 46550, 45077)).isEqualTo(Peer.NOBODY);
    }

    /** Their page may be asked for again: that is RFC 9110's word for a connection that is used no more. */
    @Test
    void aConnectionThatIsNobodysIsNotCalledAStrangers() {
        assertThatThrownBy(() -> owner.check(1, 2))
                .isInstanceOfSatisfying(
                        Refusal.class, refusal -> assertThat(refusal.status()).isEqualTo(408));
    }

    @Test
    void whereNothingIsKnownNobodyIsTurnedAway() {
        assertThatCode(() -> new PeerUser(Set.of()).check(1, 2)).doesNotThrowAnyException();
    }
}
