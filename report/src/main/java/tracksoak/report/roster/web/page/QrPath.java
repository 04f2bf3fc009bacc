package tracksoak.report.roster.web.page;

import io.nayuki.qrcodegen.QrCode;
import java.util.Locale;

/**
 * A QR code (ISO/IEC 18004) as the path of a picture, one unit per module, with the quiet zone of four modules that readers
 * need around it.
 *
 * @param size modules along one side, with the quiet zone
 * @param path the dark modules, one stroke-free rectangle per run in a row
 */
record QrPath(int size, String path) {

    /** Modules left light on each side. */
    static final int QUIET = 4;

    /**
     * The code of an address.
     *
     * @param small whether it must do with few modules, so that each is large enough for the dots of a printer on the smallest
     *     label; about 7 % of it may be rubbed off then, else 15 %, and more where that costs no module
     */
    static QrPath of(String address, boolean small) {
        QrCode code = QrCode.encodeText(address, small ? QrCode.Ecc.LOW : QrCode.Ecc.MEDIUM);
        StringBuilder path = new StringBuilder();
        for (int y = 0; y < code.size; y++) {
            int x = 0;
            while (x < code.size) {
                int end = x;
                while (end < code.size && code.getModule(end, y)) {
                    end++;
                }
                if (end > x) {
                    path.append(String.format(Locale.ROOT, "M%d %dh%dv1h-%dz", x + QUIET, y + QUIET, end - x, end - x));
                }
                x = Math.max(end, x + 1);
            }
        }
        return new QrPath(code.size + 2 * QUIET, path.toString());
    }
}
