using BosFlow.Media.Video;
using BosFlow.TestKit;

namespace BosFlow.Media.Tests;

public sealed class NativeLibrariesTests
{
    [Fact]
    public void Check_OnThisMachine_FindsOpenCvAndFfmpeg()
    {
        IReadOnlyList<NativeLibraryStatus> found = NativeLibraries.Check();

        Assert.Equal(["OpenCV", "ffmpeg"], found.Select(status => status.Name));
        Assert.All(found, status => Assert.True(status.Present, status.Detail));
        Assert.Equal("4.13.0", found[0].Detail);
    }

    [Fact]
    public void OpenCv_LibraryDoesNotLoad_SaysWhatToInstall()
    {
        NativeLibraryStatus status = NativeLibraries.OpenCv(() => throw new TypeInitializationException("NativeMethods", new DllNotFoundException("Unable to load shared library.\n/x/libOpenCvSharpExtern.so: cannot open shared object file: No such file\nlibgtk-3.so.0: cannot open shared object file: No such file")));

        Assert.False(status.Present);
        Assert.Equal("its native library does not load (libgtk-3.so.0 is missing): install what it needs with  apt-get install libgtk-3-0 libatomic1 libdrm2", status.Detail);
    }

    [Fact]
    public void Find_EmptySearchPath_FindsNothingAndSaysWhatToInstall()
    {
        using var folder = new TemporaryFolder();

        Assert.Null(ExternalTools.Find(folder.Root));
        Assert.Contains("apt-get install ffmpeg", NativeLibraries.Ffmpeg(null).Detail, StringComparison.Ordinal);
    }

    [Fact]
    public void Find_FileThatCannotRun_CountsAsMissing()
    {
        using var folder = new TemporaryFolder();
        folder.Write("ffmpeg", "no program");
        folder.Write("ffprobe", "no program");

        Assert.Null(ExternalTools.Find(folder.Root));
    }

    [Theory]
    [InlineData("5.1.9-0+deb12u1", "-fps_mode")]
    [InlineData("5.0.1", "-vsync")]
    [InlineData("4.4.2-0ubuntu0.22.04.1", "-vsync")]
    [InlineData("7.0", "-fps_mode")]
    [InlineData("N-110000-g1a2b3c", "-fps_mode")]
    public void KeepEveryFrame_ByVersion_IsTheOptionOfThatVersion(string version, string option) =>
        Assert.Equal(option, new ExternalTools("ffmpeg", "ffprobe", version).KeepEveryFrame[0]);
}
