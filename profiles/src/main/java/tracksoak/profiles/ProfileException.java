package tracksoak.profiles;

import java.util.List;
import java.util.stream.Collectors;
import tracksoak.profiles.base.Problem;

/**
 * A session profile, or an option that changes one, is wrong. Carries everything found wrong, not only the first, which
 * its parts as a {@link Problem} speak of.
 */
public final class ProfileException extends Problem {
    private static final long serialVersionUID = 1L;

    private final transient List<ProfileError> errors;

    /** @param errors what is wrong, at least one, in the order to be shown */
    public ProfileException(List<ProfileError> errors) {
        this(List.copyOf(errors), first(errors));
    }

    private ProfileException(List<ProfileError> errors, ProfileError first) {
        super(Kind.ASKED_WRONG, "the session is not in order", first.where(), first.told(), first.remedy());
        this.errors = errors;
    }

    private static ProfileError first(List<ProfileError> errors) {
        if (errors.isEmpty()) {
            throw new IllegalArgumentException("a profile exception needs at least one error");
        }
        return errors.get(0);
    }

    /** All errors, one line each. */
    @Override
    public String getMessage() {
        return errors.stream().map(ProfileError::sentence).collect(Collectors.joining("\n"));
    }

    /** Everything found wrong; the message lists the same, one line each. */
    public List<ProfileError> errors() {
        return errors;
    }
}
