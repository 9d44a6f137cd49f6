namespace BosFlow.Media;

/// <summary>Whether something that this machine must or should have is there.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Present">It is there and works.</param>
/// <param name="Required">Nothing can be read without it; else it only makes reading better.</param>
/// <param name="Detail">Its version where it is there; else what is missing and what to do.</param>
public sealed record NativeLibraryStatus(string Name, bool Present, bool Required, string Detail);
