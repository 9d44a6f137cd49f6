using System.Buffers;
using System.Security.Cryptography;

namespace BosFlow.Results.Runs;

/// <summary>SHA-256 of files, streamed: memory does not grow with their size.</summary>
public static class InputHashing
{
    private const int BufferBytes = 1 << 18;

    /// <summary>Hashes files, several at a time; the result is in the order of the paths.</summary>
    /// <param name="role">footage, reference or board.</param>
    /// <param name="paths">The files.</param>
    /// <param name="cancellationToken">Stops within a file.</param>
    /// <exception cref="InputDataException">A file cannot be read.</exception>
    public static IReadOnlyList<RunInput> Hash(string role, IReadOnlyList<string> paths, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(paths);
        var inputs = new RunInput[paths.Count];
        try
        {
            Parallel.For(0, paths.Count, new ParallelOptions { CancellationToken = cancellationToken, MaxDegreeOfParallelism = Environment.ProcessorCount }, i => inputs[i] = HashOne(role, paths[i], cancellationToken));
        }
        catch (AggregateException e) when (e.InnerExceptions.FirstOrDefault(inner => inner is InputDataException) is { } input)
        {
            throw new InputDataException(input.Message, e);
        }

        return inputs;
    }

    private static RunInput HashOne(string role, string path, CancellationToken cancellationToken)
    {
        byte[] buffer = ArrayPool<byte>.Shared.Rent(BufferBytes);
        try
        {
            using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 1, FileOptions.SequentialScan);
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            long length = 0;
            for (int read = stream.Read(buffer); read > 0; read = stream.Read(buffer))
            {
                cancellationToken.ThrowIfCancellationRequested();
                hash.AppendData(buffer, 0, read);
                length += read;
            }

            return new RunInput(role, Path.GetFileName(path), length, Convert.ToHexStringLower(hash.GetHashAndReset()));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InputDataException($"{path} cannot be read ({e.Message}); check the path and its permissions.", e);
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }
}
