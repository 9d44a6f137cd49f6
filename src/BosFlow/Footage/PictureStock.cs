using System.Collections.Concurrent;

namespace BosFlow.Footage;

/// <summary>Memory of pictures that nobody reads any more, for those that come next. Safe for several threads.</summary>
/// <remarks>A large picture costs more to be given fresh memory, which the system clears first, than to be filled. The stock never holds more than were in use at one time.</remarks>
public sealed class PictureStock
{
    private readonly ConcurrentBag<byte[]> codes = [];
    private readonly ConcurrentBag<float[]> levels = [];

    /// <summary>Memory for a picture of 8 bits; what it holds is undefined.</summary>
    /// <param name="length">Number of pixels.</param>
    public byte[] TakeCodes(int length) =>
        codes.TryTake(out byte[]? memory) && memory.Length == length ? memory : GC.AllocateUninitializedArray<byte>(length);

    /// <summary>Memory for a picture of more bits; what it holds is undefined.</summary>
    /// <param name="length">Number of pixels.</param>
    public float[] TakeLevels(int length) =>
        levels.TryTake(out float[]? memory) && memory.Length == length ? memory : GC.AllocateUninitializedArray<float>(length);

    /// <summary>Takes back the memory of a picture.</summary>
    /// <param name="picture">A picture that nobody reads from now on.</param>
    public void Give(GrayImage picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        if (picture.CodeMemory is not null)
            codes.Add(picture.CodeMemory);
        else
            levels.Add(picture.LevelMemory!);
    }
}
