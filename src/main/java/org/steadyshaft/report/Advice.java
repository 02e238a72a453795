package org.steadyshaft.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Optional;
import org.tomlj.Toml;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlTable;

/**
 * What to do about what was found: the rules of the file advice.toml beside this class. A rule is found by its group (finding, ripple,
 * blip, hunting, alarm, compare, other) and its name, which is that of the code or cause.
 */
public final class Advice {
    /**
     * A rule.
     *
     * @param causes likely causes in the circuit, in plain words
     * @param next the next thing to try or to record
     * @param mains whether a hand would come near live or moving parts
     */
    public record Rule(String causes, String next, boolean mains) {
        public Rule {
            if (causes.isBlank() || next.isBlank()) {
                throw new IllegalArgumentException("a rule without words");
            }
        }
    }

    private static final Advice USUAL = read();

    private final TomlParseResult rules;

    private Advice(TomlParseResult rules) {
        this.rules = rules;
    }

    /** The rules that come with the program. */
    public static Advice usual() {
        return USUAL;
    }

    private static Advice read() {
        try (InputStream in = Advice.class.getResourceAsStream("advice.toml")) {
            TomlParseResult parsed = Toml.parse(in);
            if (parsed.hasErrors()) {
                throw new IllegalStateException(
                        "advice.toml: " + parsed.errors().get(0));
            }
            return new Advice(parsed);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What stands wherever a hand would come near live or moving parts. */
    public String caution() {
        return Optional.ofNullable(rules.getString("caution"))
                .orElseThrow(() -> new IllegalStateException("advice.toml: no caution"));
    }

    /** The rule of a group by its name; empty if there is none. */
    public Optional<Rule> rule(String group, String name) {
        return Optional.ofNullable(rules.getTable(group))
                .map(table -> table.getTable(name))
                .map(Advice::rule);
    }

    private static Rule rule(TomlTable table) {
        return new Rule(
                table.getString("causes", () -> ""),
                table.getString("next", () -> ""),
                table.getBoolean("mains", () -> true));
    }
}
