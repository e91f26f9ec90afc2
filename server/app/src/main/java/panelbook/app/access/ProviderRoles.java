package panelbook.app.access;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Role;

/** Which role the claims of a provider's token give. */
record ProviderRoles(SignInSettings.Oidc settings) {

    /** The role that may most of those that the claims give; empty when they give none. */
    Optional<Role> of(Map<String, Object> claims) {
        var words = words(claim(claims, String.valueOf(settings.roleClaim())));
        if (settings.engineers().stream().anyMatch(words::contains)) {
            return Optional.of(Role.ENGINEER);
        }
        if (settings.calibrators().stream().anyMatch(words::contains)) {
            return Optional.of(Role.CALIBRATOR);
        }
        return settings.managers().stream().anyMatch(words::contains) ? Optional.of(Role.MANAGER) : Optional.empty();
    }

    /** A claim by its whole name, or by a path into claims within claims. */
    private static @Nullable Object claim(Map<?, ?> claims, String path) {
        var whole = claims.get(path);
        var dot = path.indexOf('.');
        if (whole != null || dot < 0) {
            return whole;
        }
        return claims.get(path.substring(0, dot)) instanceof Map<?, ?> within
                ? claim(within, path.substring(dot + 1))
                : null;
    }

    private static List<String> words(@Nullable Object claim) {
        if (claim instanceof Collection<?> list) {
            return list.stream().map(String::valueOf).toList();
        }
        return claim == null ? List.of() : List.of(String.valueOf(claim));
    }
}
