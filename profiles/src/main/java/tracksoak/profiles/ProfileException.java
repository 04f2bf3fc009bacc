package tracksoak.profiles;

import java.util.List;
import java.util.stream.Collectors;

/** A session profile, or an option that changes one, is wrong. Carries everything found wrong, not only the first. */
public final class ProfileException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient List<ProfileError> errors;

    /** @param errors what is wrong, at least one, in the order to be shown */
    public ProfileException(List<ProfileError> errors) {
        if (errors.isEmpty()) {
            throw new IllegalArgumentException("a profile exception needs at least one error");
        }
        this.errors = List.copyOf(errors);
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
