package org.steadyshaft.file;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ThreadLocalRandom;
import java.util.stream.Stream;

/**
 * A folder claimed for the results of one run: no other run may write into it until it is closed, and nothing in it is replaced or removed
 * but what bears the program's own marks.
 */
public final class OutputFolder implements AutoCloseable {
    /** Held by the run that writes; gone when it is done. */
    public static final String LOCK = ".steadyshaft.lock";

    private static final String LOCK_MARK = "steadyshaft is writing here";

    /** So many lengths of a lock file tell this run's from another's. */
    private static final int LOCK_LENGTHS = 1 << 14;

    /** Lock files held by runs of this process: to open one of them a second time and close it would free it. */
    private static final Set<Path> HELD_HERE = ConcurrentHashMap.newKeySet();

    private final Path folder;
    private final Path lockFile;
    private final FileChannel lock;

    private OutputFolder(Path folder, Path lockFile, FileChannel lock) {
        this.folder = folder;
        this.lockFile = lockFile;
        this.lock = lock;
    }

    /**
     * Claims a folder; makes it where it is missing.
     *
     * @param own what will be written or removed directly in it
     * @param inputs what is read meanwhile and must not be written over
     * @throws OutputRefusal if another run writes there, or something of another's stands where a result would: nothing has been written then
     * @throws IOException if the folder cannot be made or written to
     */
    public static OutputFolder claim(Path folder, List<OwnFile> own, Collection<Path> inputs) throws IOException {
        refuseForeign(folder, own, inputs);
        Files.createDirectories(folder);
        Path lockFile = folder.toRealPath().resolve(LOCK);
        OutputFolder claimed = new OutputFolder(folder, lockFile, locked(lockFile));
        try {
            refuseForeign(folder, own, inputs);
            clearParts(folder);
            return claimed;
        } catch (IOException e) {
            claimed.close();
            throw e;
        }
    }

    private static void refuseForeign(Path folder, List<OwnFile> own, Collection<Path> inputs) throws OutputRefusal {
        for (OwnFile result : own) {
            Path place = folder.resolve(result.name());
            for (Path input : inputs) {
                if (isSame(place, input)) {
                    throw new OutputRefusal(
                            place + " is one of the inputs and would be overwritten; name another folder");
                }
            }
            if (!result.isFreeIn(folder)) {
                throw foreign(place);
            }
        }
    }

    private static boolean isSame(Path one, Path other) {
        try {
            return one.toAbsolutePath()
                            .normalize()
                            .equals(other.toAbsolutePath().normalize())
                    || Files.exists(one) && Files.exists(other) && Files.isSameFile(one, other);
        } catch (IOException e) {
            return false;
        }
    }

    private static FileChannel locked(Path file) throws IOException {
        if (!OwnFile.bearing(LOCK, LOCK_MARK).isFreeIn(file.getParent())) {
            throw foreign(file);
        }
        if (!HELD_HERE.add(file)) {
            throw busy(file);
        }
        try {
            return opened(file);
        } catch (IOException e) {
            HELD_HERE.remove(file);
            throw e;
        }
    }

    private static FileChannel opened(Path file) throws IOException {
        FileChannel channel =
                FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);
        try {
            if (isTaken(channel) || !isStillThere(channel, file)) {
                throw busy(file);
            }
            return channel;
        } catch (IOException e) {
            channel.close();
            throw e;
        }
    }

    private static OutputRefusal busy(Path lockFile) {
        return new OutputRefusal("another run is writing into " + lockFile.getParent()
                + "; wait until it is done or name another folder");
    }

    private static OutputRefusal foreign(Path file) {
        return new OutputRefusal(
                file + " is there already and was not written by this program; move it away or name another folder");
    }

    /** Whether another process holds it; a file system that knows no locks has nobody hold one. */
    private static boolean isTaken(FileChannel channel) {
        try {
            FileLock lock = channel.tryLock();
            return lock == null;
        } catch (IOException e) {
            return false;
        }
    }

    /** The run before may have taken the file away between opening and locking: one of a length drawn now is this run's. */
    private static boolean isStillThere(FileChannel channel, Path file) throws IOException {
        String text = LOCK_MARK + "\n" + " ".repeat(ThreadLocalRandom.current().nextInt(LOCK_LENGTHS));
        channel.truncate(0);
        channel.write(ByteBuffer.wrap(text.getBytes(StandardCharsets.US_ASCII)));
        return Files.exists(file, LinkOption.NOFOLLOW_LINKS) && Files.size(file) == text.length();
    }

    /** Takes away what a killed run left unfinished; nobody else writes here now. */
    private static void clearParts(Path place) throws IOException {
        try (Stream<Path> entries = Files.list(place)) {
            for (Path entry : entries.filter(OutputFolder::isPart).toList()) {
                Files.deleteIfExists(entry);
            }
        }
    }

    private static boolean isPart(Path file) {
        String name = file.getFileName().toString();
        return name.startsWith(WholeFiles.PART_BEGIN)
                && name.endsWith(WholeFiles.PART_END)
                && Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS);
    }

    /**
     * Whether results may be written into a folder of this name within: nothing bears the name, or it is a folder, no link, in which all
     * that would be replaced is the program's own. What a killed run left unfinished there is taken away.
     */
    public boolean isFree(String name, Collection<OwnFile> own) {
        Path place = folder.resolve(name);
        if (!Files.exists(place, LinkOption.NOFOLLOW_LINKS)) {
            return true;
        }
        if (!Files.isDirectory(place, LinkOption.NOFOLLOW_LINKS)
                || !own.stream().allMatch(file -> file.isFreeIn(place))) {
            return false;
        }
        try {
            clearParts(place);
        } catch (IOException e) {
            // what is left there does no harm
        }
        return true;
    }

    public Path path() {
        return folder;
    }

    @Override
    public void close() throws IOException {
        try {
            Files.deleteIfExists(lockFile);
        } catch (FileSystemException e) {
            // the folder may have become unwritable: a claim is left that nobody holds, and the next run takes over
        } finally {
            lock.close();
            HELD_HERE.remove(lockFile);
        }
    }
}
