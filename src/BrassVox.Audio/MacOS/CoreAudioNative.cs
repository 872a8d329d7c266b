using System.Runtime.InteropServices;

namespace BrassVox.Audio.MacOS;

/// <summary>
/// The functions of AudioToolbox, CoreAudio and CoreFoundation that are used. Sources: AudioQueue.h, AudioHardware.h,
/// CoreAudioBaseTypes.h, CFString.h, AVCaptureDevice.h and objc/message.h of the macOS SDK.
/// </summary>
internal static unsafe partial class CoreAudioNative
{
    internal const uint LinearPcm = 0x6C70636D;
    internal const uint FlagsFloatPacked = 1 | 8;
    internal const uint CurrentDevice = 0x61716364;
    internal const uint SystemObject = 1;
    internal const uint Devices = 0x64657623;
    internal const uint DefaultOutput = 0x644F7574;
    internal const uint DefaultInput = 0x64496E20;
    internal const uint DeviceUid = 0x75696420;
    internal const uint ObjectName = 0x6C6E616D;
    internal const uint Streams = 0x73746D23;
    internal const uint StreamChannels = 0x736C6179;
    internal const uint RunLoop = 0x726E6C70;

    /// <summary>Bytes before the first entry of an AudioBufferList, and of an entry, which begins with its channels.</summary>
    internal const int BufferListHead = 8;
    internal const int BufferListEntry = 16;
    internal const uint ScopeGlobal = 0x676C6F62;
    internal const uint ScopeOutput = 0x6F757470;
    internal const uint ScopeInput = 0x696E7074;

    private const uint Utf8 = 0x08000100;
    private const int Restricted = 1;
    private const int Denied = 2;
    private const string AvFoundation = "/System/Library/Frameworks/AVFoundation.framework/AVFoundation";
    private const string ObjectiveC = "/usr/lib/libobjc.A.dylib";
    private const string AudioToolbox = "/System/Library/Frameworks/AudioToolbox.framework/AudioToolbox";
    private const string CoreAudio = "/System/Library/Frameworks/CoreAudio.framework/CoreAudio";
    private const string CoreFoundation = "/System/Library/Frameworks/CoreFoundation.framework/CoreFoundation";

    [LibraryImport(AudioToolbox, EntryPoint = "AudioQueueNewOutput")]
    internal static partial int NewOutput(in StreamDescription format, delegate* unmanaged[Cdecl]<nint, nint, QueueBuffer*, void> callback, nint user, nint runLoop, nint mode, uint flags, out nint queue);

    [LibraryImport(AudioToolbox, EntryPoint = "AudioQueueNewInput")]
    internal static partial int NewInput(in StreamDescription format, delegate* unmanaged[Cdecl]<nint, nint, QueueBuffer*, nint, uint, nint, void> callback, nint user, nint runLoop, nint mode, uint flags, out nint queue);

    [LibraryImport(AudioToolbox, EntryPoint = "AudioQueueAllocateBuffer")]
    internal static partial int AllocateBuffer(nint queue, uint bytes, out QueueBuffer* buffer);

    [LibraryImport(AudioToolbox, EntryPoint = "AudioQueueEnqueueBuffer")]
    internal static partial int Enqueue(nint queue, QueueBuffer* buffer, uint packets, nint descriptions);

    [LibraryImport(AudioToolbox, EntryPoint = "AudioQueueStart")]
    internal static partial int Start(nint queue, nint time);

    [LibraryImport(AudioToolbox, EntryPoint = "AudioQueueStop")]
    internal static partial int Stop(nint queue, byte immediately);

    [LibraryImport(AudioToolbox, EntryPoint = "AudioQueueDispose")]
    internal static partial int Dispose(nint queue, byte immediately);

    [LibraryImport(AudioToolbox, EntryPoint = "AudioQueueSetProperty")]
    internal static partial int SetProperty(nint queue, uint property, in nint data, uint bytes);

    [LibraryImport(CoreAudio, EntryPoint = "AudioObjectGetPropertyDataSize")]
    internal static partial int PropertySize(uint audioObject, in PropertyAddress address, uint qualifierBytes, nint qualifier, out uint bytes);

    [LibraryImport(CoreAudio, EntryPoint = "AudioObjectGetPropertyData")]
    internal static partial int Property(uint audioObject, in PropertyAddress address, uint qualifierBytes, nint qualifier, ref uint bytes, void* data);

    [LibraryImport(CoreAudio, EntryPoint = "AudioObjectSetPropertyData")]
    internal static partial int SetObjectProperty(uint audioObject, in PropertyAddress address, uint qualifierBytes, nint qualifier, uint bytes, void* data);

    [LibraryImport(CoreFoundation, EntryPoint = "CFRelease")]
    internal static partial void Release(nint reference);

    /// <summary>True when the system has been told that this program, or its terminal, may not record: it would hear silence and no error.</summary>
    internal static bool IsMicrophoneRefused()
    {
        if (!NativeLibrary.TryLoad(AvFoundation, out _))
            return false;
        nint media = MakeString("soun");
        nint status = Message(ClassOf("AVCaptureDevice"), Selector("authorizationStatusForMediaType:"), media);
        Release(media);
        return status is Restricted or Denied;
    }

    /// <summary>Makes a string that the caller releases.</summary>
    /// <param name="text">Text.</param>
    internal static nint MakeString(string text) => StringCreate(0, text, Utf8);

    /// <summary>Reads a string and releases it.</summary>
    /// <param name="reference">The string, or 0.</param>
    internal static string TakeString(nint reference)
    {
        if (reference == 0)
            return "";
        byte[] bytes = new byte[4 * StringLength(reference) + 1];
        bool read = StringBytes(reference, bytes, bytes.Length, Utf8) != 0;
        Release(reference);
        int end = Array.IndexOf(bytes, (byte)0);
        return read ? System.Text.Encoding.UTF8.GetString(bytes, 0, end) : "";
    }

    [LibraryImport(ObjectiveC, EntryPoint = "objc_getClass", StringMarshalling = StringMarshalling.Utf8)]
    private static partial nint ClassOf(string name);

    [LibraryImport(ObjectiveC, EntryPoint = "sel_registerName", StringMarshalling = StringMarshalling.Utf8)]
    private static partial nint Selector(string name);

    [LibraryImport(ObjectiveC, EntryPoint = "objc_msgSend")]
    private static partial nint Message(nint receiver, nint selector, nint argument);

    [LibraryImport(CoreFoundation, EntryPoint = "CFStringCreateWithCString", StringMarshalling = StringMarshalling.Utf8)]
    private static partial nint StringCreate(nint allocator, string text, uint encoding);

    [LibraryImport(CoreFoundation, EntryPoint = "CFStringGetLength")]
    private static partial nint StringLength(nint reference);

    [LibraryImport(CoreFoundation, EntryPoint = "CFStringGetCString")]
    private static partial byte StringBytes(nint reference, [Out] byte[] buffer, nint bytes, uint encoding);

    /// <summary>AudioStreamBasicDescription.</summary>
    [StructLayout(LayoutKind.Sequential)]
    internal struct StreamDescription
    {
        internal double SampleRateHz;
        internal uint FormatId;
        internal uint FormatFlags;
        internal uint BytesPerPacket;
        internal uint SamplesPerPacket;
        internal uint BytesPerSample;
        internal uint Channels;
        internal uint BitsPerChannel;
        internal uint Reserved;
    }

    /// <summary>AudioObjectPropertyAddress.</summary>
    [StructLayout(LayoutKind.Sequential)]
    internal record struct PropertyAddress(uint Selector, uint Scope, uint Element);

    /// <summary>The beginning of AudioQueueBuffer, as far as it is used.</summary>
    [StructLayout(LayoutKind.Sequential)]
    internal struct QueueBuffer
    {
        internal uint CapacityBytes;
        internal float* Data;
        internal uint UsedBytes;
    }
}
