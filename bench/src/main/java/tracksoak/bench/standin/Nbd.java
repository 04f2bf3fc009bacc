package tracksoak.bench.standin;

/**
 * Numbers of the protocol of network block devices. Source: doc/proto.md of the NetworkBlockDevice project. All numbers travel
 * with their high byte first.
 */
final class Nbd {

    /** The port that is set aside for it (IANA). */
    static final int PORT = 10_809;

    static final long HELLO = 0x4e42_444d_4147_4943L;
    static final long OPTION = 0x4948_4156_454F_5054L;
    static final long OPTION_REPLY = 0x0003_e889_0455_65a9L;
    static final int REQUEST = 0x2560_9513;
    static final int SIMPLE_REPLY = 0x6744_6698;

    static final int FIXED_NEWSTYLE = 1;
    static final int NO_ZEROES = 2;

    static final int OPT_EXPORT_NAME = 1;
    static final int OPT_ABORT = 2;
    static final int OPT_LIST = 3;
    static final int OPT_INFO = 6;
    static final int OPT_GO = 7;

    static final int REP_ACK = 1;
    static final int REP_SERVER = 2;
    static final int REP_INFO = 3;
    static final int REP_ERR_UNSUP = 0x8000_0001;
    static final int REP_ERR_POLICY = 0x8000_0002;
    static final int REP_ERR_INVALID = 0x8000_0003;
    static final int REP_ERR_UNKNOWN = 0x8000_0006;

    static final int INFO_EXPORT = 0;
    static final int INFO_DESCRIPTION = 2;
    static final int INFO_BLOCK_SIZE = 3;

    /** There are flags; flush, FUA, trim and zeros are known; several connections of one client see the same. */
    static final int FLAGS = 1 | 1 << 2 | 1 << 3 | 1 << 5 | 1 << 6 | 1 << 8;

    static final int FLAG_ROTATIONAL = 1 << 4;

    static final int CMD_READ = 0;
    static final int CMD_WRITE = 1;
    static final int CMD_DISC = 2;
    static final int CMD_FLUSH = 3;
    static final int CMD_TRIM = 4;
    static final int CMD_WRITE_ZEROES = 6;

    static final int CMD_FLAG_FUA = 1;
    static final int CMD_FLAG_NO_HOLE = 2;

    static final int EPERM = 1;
    static final int EIO = 5;
    static final int EINVAL = 22;
    static final int ENOSPC = 28;

    /** Most bytes of one read or write: what a client may take for granted where nothing was agreed. */
    static final int MOST_BYTES = 32 << 20;

    private Nbd() {}
}
