package tracksoak.report.verdict;

import java.util.Locale;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CriterionId;

/** Whether the session accepts the drive's file system; of another one nobody here knows what the recorder makes of it. */
final class Format implements Rule {

    @Override
    public Finding judge(JudgedRun run) {
        Session session = run.session;
        String accepted = TradeName.all(session.fileSystems(), " or ");
        FindingDraft draft = new FindingDraft(CriterionId.FORMAT, accepted.isEmpty() ? "any" : accepted, null, "");
        String word = run.record.drive().fileSystem();
        String found = TradeName.orNull(word);
        if (word != null && word.toLowerCase(Locale.ROOT).startsWith("fat") && session.outgrowsFat()) {
            return draft.measured(String.valueOf(found), null)
                    .openForGood("The session lets a file grow to " + Units.bytes(session.fileLimitBytes()) + ", and "
                            + found
                            + " takes none of 4 GiB. Does your recorder go on in another file before that? If so, run again"
                            + " with --file-limit 4294967295B; else format the drive as exFAT.");
        }
        if (accepted.isEmpty()) {
            return draft.measured(found == null ? "unknown" : found, null)
                    .met("The session asks for no certain file system.");
        }
        if (word == null || found == null) {
            return draft.measured("unknown", null)
                    .openForGood("The file system could not be told: check by hand that it is " + accepted + ".");
        }
        draft.measured(found, null);
        return session.fileSystems().contains(word.toLowerCase(Locale.ROOT))
                ? draft.met("The session accepts " + found + ".")
                : draft.openForGood("The drive is formatted as " + found + ", and the session names " + accepted
                        + ". Does your recorder read " + found + "? If so, run again with --file-systems " + word
                        + "; else format the drive in the recorder.");
    }
}
