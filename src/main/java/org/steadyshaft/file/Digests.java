package org.steadyshaft.file;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 (FIPS 180-4), which every Java has. */
public final class Digests {
    private Digests() {}

    static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** The digest of a text's UTF-8 bytes, hexadecimal. */
    public static String sha256(String text) {
        MessageDigest digest = sha256();
        digest.update(text.getBytes(StandardCharsets.UTF_8));
        return hex(digest);
    }

    static String hex(MessageDigest digest) {
        return HexFormat.of().formatHex(digest.digest());
    }
}
